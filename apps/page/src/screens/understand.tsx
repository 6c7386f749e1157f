import type { JSX } from 'preact';
import { answerOf } from '../app/state.js';
import { useApp, useAppState } from '../app/use.js';
import { faceNames, keysAt, typedAt } from '../edit/peek.js';
import { Picture } from '../parts/picture.js';
import { ReportView } from '../parts/report.js';
import { FaceTabs, Refused } from '../parts/standing.js';

const sizes: readonly (readonly [number | null, string])[] = [
  [null, 'What suits'],
  [1, '×1'],
  [10, '×10'],
  [100, '×100'],
];

/** Understand: what the first maker may have meant, beside what was measured, to take or to leave. */
export const Understand = (): JSX.Element | null => {
  const app = useApp();
  const { history, face: wanted, answers, times } = useAppState(app);
  const names = faceNames(history.text);
  const face = wanted !== null && names.includes(wanted) ? wanted : names[0];
  if (face === undefined) return <p class="card">Add a part in Measure first.</p>;
  const layout = answerOf(answers.layouts, face);
  const uses =
    typedAt(history.text, ['faces', face, 'layout']) ||
    (keysAt(history.text, ['faces', face, 'layout']).length > 0 ? 'stated' : 'measured');
  const take = (value: string): void => app.put(['faces', face, 'layout'], value);
  return (
    <>
      <FaceTabs names={names} face={face} />
      <Refused screen="understand" />
      {layout === undefined ? (
        <p class="waiting">Weighing what the maker of {face} may have meant …</p>
      ) : (
        <div class="work">
          <div class="see">
            <Picture drawn={layout.picture} />
            <div class="row" role="group" aria-label="How much larger the step from measured to intended is drawn">
              <span>Steps and ellipses drawn</span>
              {sizes.map(([n, word]) => (
                <button
                  key={word}
                  type="button"
                  aria-pressed={times === n}
                  onClick={() => {
                    app.set({ times: n });
                    app.ask();
                  }}
                >
                  {word}
                </button>
              ))}
            </div>
          </div>
          <div class="do">
            <section class="card" aria-label="Which places the plate uses">
              <p>
                The plate uses the <strong>{uses}</strong> places of {face}.
              </p>
              <div class="row">
                <button
                  type="button"
                  class={uses === 'intended' ? '' : 'main'}
                  aria-pressed={uses === 'intended'}
                  disabled={!layout.takes}
                  onClick={() => take('intended')}
                >
                  Take the layout
                </button>
                <button type="button" aria-pressed={uses === 'measured'} onClick={() => take('measured')}>
                  Keep what was measured
                </button>
              </div>
              {layout.takes ? null : <p class="help">No layout is likely enough to be taken.</p>}
            </section>
            <ReportView report={layout.report} />
          </div>
        </div>
      )}
    </>
  );
};
