import type { JSX } from 'preact';
import { useEffect, useState } from 'preact/hooks';
import { instrumentsOf, typedAt } from '../edit/peek.js';
import { Editor } from '../parts/editor.js';
import { Choice, Field, Fold, Remove } from '../parts/field.js';
import { LookUp } from '../parts/look-up.js';
import { Make } from '../screens/make.js';
import { Measure } from '../screens/measure.js';
import { NewJob } from '../screens/new-job.js';
import { Plate } from '../screens/plate.js';
import { Prove } from '../screens/prove.js';
import { Stack } from '../screens/stack.js';
import { Understand } from '../screens/understand.js';
import { type Screen, screens } from '../work/protocol.js';
import { openFile, save, saveAs } from './save.js';
import { useApp, useAppState } from './use.js';

const titles: Readonly<Record<Screen, string>> = {
  measure: 'Measure',
  understand: 'Understand',
  stack: 'Stack',
  plate: 'Plate',
  make: 'Make',
  prove: 'Prove',
};
const views: Readonly<Record<Screen, () => JSX.Element | null>> = {
  measure: Measure,
  understand: Understand,
  stack: Stack,
  plate: Plate,
  make: Make,
  prove: Prove,
};

/** Whether everything typed is safe, in words. */
const Keeping = (): JSX.Element => {
  const { keeping, file, saved, history } = useAppState(useApp());
  const inFile = saved === history.text;
  const words = {
    kept: inFile ? `Saved in ${file ?? 'a file'}.` : 'Saved in this browser, not yet in a file.',
    keeping: 'Saving the last key …',
    none: inFile
      ? `Saved in ${file ?? 'a file'}.`
      : 'This browser gives the page no store: nothing is saved if you close it. Save the job as a file.',
    full: 'The browser’s store is full or closed: the last keys are not saved. Save the job as a file.',
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

const Bar = (): JSX.Element => {
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

const Steps = (): JSX.Element => {
  const app = useApp();
  const { screen, newShown } = useAppState(app);
  return (
    <nav aria-label="The work, in its order">
      <ol class="steps">
        {screens.map((s, i) => (
          <li key={s}>
            <button
              type="button"
              aria-current={s === screen && !newShown ? 'step' : undefined}
              onClick={() => {
                app.set({ newShown: false });
                app.show(s);
              }}
            >
              {i + 1} {titles[s]}
            </button>
          </li>
        ))}
      </ol>
    </nav>
  );
};

/** What is being worked out and how to stop it; how it ended; what else a person must know. */
const Words = (): JSX.Element => {
  const app = useApp();
  const { working, ended, notices, answers } = useAppState(app);
  return (
    <div class="notices">
      <div class={`working${working === null ? ' idle' : ''}`} aria-hidden={working === null}>
        {working === null ? null : (
          <>
            <span>
              Working out {working.what}
              {working.share === null ? ' …' : `: ${Math.round(100 * working.share)} %`}
            </span>
            <button type="button" onClick={app.stop}>
              Stop
            </button>
          </>
        )}
      </div>
      <div role="status">
        {ended === null ? null : (
          <div class="card faulty">
            <p>{ended}</p>
            <button type="button" onClick={app.ask}>
              Work it out
            </button>
          </div>
        )}
        {answers.missing.length === 0 ? null : (
          <div class="card">
            <p>The job takes readings from {answers.missing.join(', ')}, which the page has not been given.</p>
            <button type="button" onClick={() => void openFile(app)}>
              Open the list
            </button>
          </div>
        )}
        {notices.map((n) => (
          <div key={n.id} class="card">
            <p>{n.words}</p>
            <div class="row">
              {n.actions.map((a) => (
                <button
                  key={a.says}
                  type="button"
                  onClick={() => {
                    app.dismiss(n.id);
                    a.act();
                  }}
                >
                  {a.says}
                </button>
              ))}
              <button type="button" onClick={() => app.dismiss(n.id)}>
                Close
              </button>
            </div>
          </div>
        ))}
      </div>
    </div>
  );
};

const JobWords = (): JSX.Element => {
  const app = useApp();
  const { history } = useAppState(app);
  return (
    <Fold title="The job and its instruments">
      <div class="fields">
        <Field label="Name of the job" path={['job']} wide />
        <Choice
          label="A number without a unit is in"
          path={['units']}
          of={[
            ['in', 'inches'],
            ['mm', 'millimetres'],
          ]}
        />
      </div>
      {instrumentsOf(history.text).map(({ name }) => (
        <div key={name} class="entry">
          <Field label={`± of one reading: ${name}`} path={['instruments', name]} />
          <Remove what={name} path={['instruments', name]} />
        </div>
      ))}
      <div class="row">
        {(
          [
            ['rule', '± 0.5 mm'],
            ['micrometer', '± 0.01 mm'],
            ['protractor', '± 0.5 deg'],
            ['square', '± 0.2 deg'],
          ] as const
        )
          .filter(([name]) => !instrumentsOf(history.text).some((i) => i.name === name))
          .map(([name, band]) => (
            <button key={name} type="button" onClick={() => app.put(['instruments', name], band)}>
              Add a {name}
            </button>
          ))}
      </div>
    </Fold>
  );
};

/** The page: the job and its buttons, the steps of the work, the step in hand, and the text beside it. */
export const Frame = (): JSX.Element => {
  const app = useApp();
  const { screen, textShown, newShown } = useAppState(app);
  const View = views[screen];
  useEffect(() => {
    const keys = (event: KeyboardEvent): void => {
      const typing = (event.target as HTMLElement | null)?.closest('.cm-editor') !== null;
      if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
      const key = event.key.toLowerCase();
      if (key === 's') {
        event.preventDefault();
        void save(app);
      } else if (!typing && key === 'z') {
        event.preventDefault();
        if (event.shiftKey) app.redo();
        else app.undo();
      } else if (!typing && key === 'y') {
        event.preventDefault();
        app.redo();
      }
    };
    document.addEventListener('keydown', keys);
    return () => document.removeEventListener('keydown', keys);
  }, [app]);
  return (
    <>
      <a class="skip" href="#work">
        To the work
      </a>
      <Bar />
      <Steps />
      <Words />
      <div class={`body${textShown ? ' with-text' : ''}`}>
        <main id="work" tabIndex={-1}>
          {newShown ? (
            <NewJob />
          ) : (
            <>
              <h2 class="unseen">{titles[screen]}</h2>
              <View />
              <JobWords />
              <LookUp />
            </>
          )}
        </main>
        {textShown ? <Editor /> : null}
      </div>
      <footer>
        <p>
          Fayplate works out geometry. It does not choose the grade or torque of a fastener, nor what a coupling or a
          casting bears: that is for their makers, and where lives depend on the joint, for licensed practice under your
          local codes.
        </p>
      </footer>
    </>
  );
};
