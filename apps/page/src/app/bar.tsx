import type { JSX } from 'preact';
import { useState } from 'preact/hooks';
import { typedAt } from '../edit/peek.js';
import { openFile, save, saveAs } from './save.js';
import { useApp, useAppState } from './use.js';

/** Whether everything typed is safe, in words. */
const Keeping = (): JSX.Element => {
  const { keeping, file, saved, history } = useAppState(useApp());
  const inFile = saved === history.text;
  const words = {
    kept: inFile ? `Saved in ${file ?? 'a file'}.` : 'Saved in this browser, not yet in a file.',
    keeping: 'Saving the last key …',
    none: inFile
      ? `Saved in ${file ?? 'a file'}.`
      : 'This browser does not let the page save: nothing is kept if you close it. Save the job as a file.',
    full: 'The browser’s storage is full or blocked: the last changes are not saved. Save the job as a file.',
  }[keeping];
  return (
    <p
      class={`keeping${keeping === 'none' || keeping === 'full' ? ' fault' : ''}`}
      role="status"
      data-keeping={keeping}
    >
      {words}
    </p>
  );
};

export const Bar = (): JSX.Element => {
  const app = useApp();
  const { history, textShown } = useAppState(app);
  const [open, setOpen] = useState(false);
  return (
    <header class={`bar${open ? ' open' : ''}`}>
      <div class="name">
        <h1>{typedAt(history.text, ['job']).replace(/^["']|["']$/g, '') || 'No job yet'}</h1>
        <Keeping />
      </div>
      <div class="row" role="group" aria-label="The job">
        <button type="button" onClick={() => void save(app)}>
          Save
        </button>
        <button type="button" disabled={history.past.length === 0} onClick={app.undo}>
          Undo
        </button>
        <button type="button" disabled={history.future.length === 0} onClick={app.redo}>
          Redo
        </button>
        <button type="button" class="only-narrow" aria-expanded={open} onClick={() => setOpen(!open)}>
          More
        </button>
        <button type="button" class="second" onClick={() => app.set({ newShown: true })}>
          New
        </button>
        <button type="button" class="second" onClick={() => void openFile(app)}>
          Open
        </button>
        <button type="button" class="second" onClick={() => void saveAs(app)}>
          Save as
        </button>
        <button
          type="button"
          class="second"
          aria-pressed={textShown}
          onClick={() => app.set({ textShown: !textShown })}
        >
          Text
        </button>
      </div>
    </header>
  );
};
