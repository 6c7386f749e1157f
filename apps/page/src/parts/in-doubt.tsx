import type { JSX } from 'preact';
import type { FaceView } from '../work/shown.js';
import { ReportView } from './report.js';

/**
 * Why the centres of a face cannot be relied on though all are fixed: readings that contradict each other, or two
 * arrangements that fit alike (both are drawn); and the reading that settles it, to be taken in hand.
 */
export const InDoubt = ({
  view,
  hold,
}: {
  readonly view: FaceView;
  readonly hold: (head: string) => void;
}): JSX.Element | null => {
  if (!view.weighed && !view.agrees)
    return (
      <p class="help" role="status">
        These readings do not agree. Looking for what is wrong …
      </p>
    );
  if (view.ok || view.undetermined.length > 0) return null;
  const { settles } = view;
  return (
    <div role="status">
      <ReportView report={view.report.filter((b) => b.kind === 'verdict' && !b.ok)} />
      {settles === null ? null : (
        <div class="card faulty">
          <p>{settles.means}</p>
          <button type="button" onClick={() => hold(settles.head)}>
            Take {settles.head} now
          </button>
        </div>
      )}
    </div>
  );
};
