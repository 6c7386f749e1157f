import type { JSX } from 'preact';
import { useApp, useAppState } from '../app/use.js';
import { keysAt } from '../edit/peek.js';
import { Choice, Field, Fold } from '../parts/field.js';
import { Readings } from '../parts/readings.js';
import { ReportView } from '../parts/report.js';
import { Pieces } from '../parts/pieces.js';
import { Refused } from '../parts/standing.js';
import { EveryWord } from '../parts/words/every-word.js';

/** Prove: the same measuring, on the drilled plate. */
export const Prove = (): JSX.Element => {
  const { history, answers } = useAppState(useApp());
  if (keysAt(history.text, ['plate']).length === 0)
    return <p class="card">There is no plate to prove yet. Begin it in Plate.</p>;
  const view = answers.prove;
  return (
    <>
      <Pieces />
      <Refused screen="prove" />
      {view === null ? (
        <p class="waiting">{answers.refused.prove === undefined ? 'Working out what to measure …' : ''}</p>
      ) : (
        <Readings
          face={null}
          drawn={view.picture}
          marks={view.marks}
          plan={view.plan}
          says={(head) => head}
          suspects={view.suspects}
        >
          {view.ok === null ? (
            <p class="help">Measure the drilled plate, seen from side B. It need not be finished.</p>
          ) : null}
          <ReportView report={view.report.filter((b) => b.kind === 'verdict')} />
          <ReportView report={view.midway} />
          <Fold title="All that the readings of the plate say">
            <ReportView report={view.report.filter((b) => b.kind !== 'verdict')} />
          </Fold>
          <Fold title="How far it is, and how you look at it">
            <div class="fields">
              <Field
                label="Holes drilled so far"
                path={['drilled', 'so far']}
                hint="all of them"
                help="Such as H1 H2 H3: says then how to go on, and what can be done where one went wrong."
              />
              <Choice
                label="You see the plate"
                path={['drilled', 'viewed']}
                of={[
                  ['', 'from side B (not said)'],
                  ['from side B', 'from side B'],
                  ['from side A', 'from side A'],
                ]}
              />
            </div>
          </Fold>
        </Readings>
      )}
      <EveryWord title="Everything the job can say about the drilled plate" path={['drilled']} without={['readings']} />
      <EveryWord title="Everything the job can say about the trial assembly" path={['trial']} />
      <EveryWord title="Readings after assembly" path={['assembled']} />
    </>
  );
};
