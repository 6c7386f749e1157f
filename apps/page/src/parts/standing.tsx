import type { JSX } from 'preact';
import { answerOf } from '../app/state.js';
import { useApp, useAppState } from '../app/use.js';
import type { FaceView } from '../work/shown.js';
import type { Screen } from '../work/protocol.js';

const standing = (view: FaceView | undefined): string =>
  view === undefined ? '' : view.suspects.length > 0 ? ': a reading in doubt' : view.ok ? ': fixed' : ': not fixed yet';

/** The parts of the job, one to look at. */
export const FaceTabs = ({
  names,
  face,
}: {
  readonly names: readonly string[];
  readonly face: string;
}): JSX.Element => {
  const app = useApp();
  const { answers } = useAppState(app);
  return (
    <div class="row faces" role="group" aria-label="Parts">
      {names.map((name) => (
        <button key={name} type="button" aria-pressed={name === face} onClick={() => app.chooseFace(name)}>
          {name}
          {standing(answerOf(answers.faces, name))}
        </button>
      ))}
    </div>
  );
};

/** Why this page of the work has no answer yet. */
export const Refused = ({ screen }: { readonly screen: Screen | 'files' | 'new' }): JSX.Element | null => {
  const app = useApp();
  const { answers, history } = useAppState(app);
  const words = answers.refused[screen];
  if (screen !== 'new' && answers.faults.length > 0) {
    const [first] = answers.faults;
    const at = first === undefined ? 0 : offsetOf(history.text, first.line, first.column);
    return (
      <div class="card faulty" role="status">
        <p>
          <strong>The job has {answers.faults.length === 1 ? 'a fault' : `${answers.faults.length} faults`}.</strong>{' '}
          What is drawn here is from before it.
        </p>
        {first === undefined ? null : (
          <p>
            Line {first.line}: {first.words}
          </p>
        )}
        <button type="button" onClick={() => app.goTo(at)}>
          Show it in the text
        </button>
      </div>
    );
  }
  return words === undefined ? null : (
    <div class="card" role="status">
      {words.split('\n').map((line, i) => (
        <p key={i}>{line}</p>
      ))}
    </div>
  );
};

/** The place in a text of a line and a column, both from 1. */
export const offsetOf = (text: string, line: number, column: number): number => {
  let at = 0;
  for (let n = 1; n < line; n++) {
    const end = text.indexOf('\n', at);
    if (end < 0) break;
    at = end + 1;
  }
  return Math.min(text.length, at + column - 1);
};
