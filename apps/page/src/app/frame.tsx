import type { JSX } from 'preact';
import { useEffect } from 'preact/hooks';
import { Editor } from '../parts/editor.js';
import { LookUp } from '../parts/look-up.js';
import { Make } from '../screens/make.js';
import { Measure } from '../screens/measure.js';
import { NewJob } from '../screens/new-job.js';
import { Plate } from '../screens/plate.js';
import { Prove } from '../screens/prove.js';
import { Stack } from '../screens/stack.js';
import { Understand } from '../screens/understand.js';
import { type Screen, screens } from '../work/protocol.js';
import { Bar } from './bar.js';
import { JobWords } from './job-words.js';
import { Notices } from './notices.js';
import { save } from './save.js';
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
      <Notices />
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
