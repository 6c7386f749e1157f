import type { JSX } from 'preact';
import { useState } from 'preact/hooks';
import { useApp, useAppState } from '../app/use.js';
import { keysAt } from '../edit/peek.js';
import { Clocking, turnTo } from '../parts/clocking.js';
import { Fold } from '../parts/field.js';
import { Picture } from '../parts/picture.js';
import { Pieces } from '../parts/pieces.js';
import { ReportView } from '../parts/report.js';
import { Refused } from '../parts/standing.js';
import { TurnRing } from '../parts/turn-ring.js';
import { EveryWord } from '../parts/words/every-word.js';
import type { Drawn, PlateView } from '../work/shown.js';
import { BeginPlate, PlateFields } from './plate-fields.js';

/** Side B in its ring: the holes of the second part follow the hand. */
const SideB = ({ view }: { readonly view: PlateView }): JSX.Element => {
  const app = useApp();
  const [dragged, setDragged] = useState<number | null>(null);
  const { box } = view.sideB;
  const r = 1.13 * Math.max(-box.left, box.right, -box.bottom, box.top);
  const { at, safe } = view.clocking;
  return (
    <Picture
      drawn={view.sideB}
      room={1.06 * r}
      over={
        <>
          <Wrong view={view} box={box} hand={1} />
          {dragged === null ? null : (
            <g class="ghost" transform={`rotate(${dragged - at})`}>
              {view.holes
                .filter((h) => view.turns.includes(h.id))
                .map((h) => (
                  <circle key={h.id} cx={h.x} cy={-h.y} r={h.r} />
                ))}
            </g>
          )}
          <TurnRing
            r={r}
            at={at}
            safe={safe}
            label="Clocking: turn the second part"
            onDrag={setDragged}
            onTurn={(degrees) => turnTo(app, degrees)}
          />
        </>
      }
    />
  );
};

/** Checks that fail, each ringed at its place. `hand`: −1 where the drawing shows the plate from its other side. */
const Wrong = ({
  view,
  box,
  hand,
}: {
  readonly view: PlateView;
  readonly box: Drawn['box'];
  readonly hand: 1 | -1;
}): JSX.Element => (
  <>
    {view.checks.map((c, i) =>
      c.at === null ? null : (
        <circle key={i} class="wrong" cx={hand * c.at[0]} cy={-c.at[1]} r={(box.right - box.left) / 40}>
          <title>{`${c.title}, ${c.of}: ${c.value}, must be ${c.limit}`}</title>
        </circle>
      ),
    )}
  </>
);

/** What does not hold, each with its place and what would put it right. */
const Failures = ({ view }: { readonly view: PlateView }): JSX.Element | null => {
  const app = useApp();
  if (view.checks.length === 0) return null;
  return (
    <section class="card faulty" aria-label="What does not hold">
      <h3>What does not hold</h3>
      <ul>
        {view.checks.map((c, i) => (
          <li key={i}>
            <strong>{c.title}</strong>, {c.of}: {c.value}, must be {c.limit}.
          </li>
        ))}
      </ul>
      {view.cures.length === 0 ? null : (
        <>
          <h4>What would put it right</h4>
          <div class="row">
            {view.cures.map((cure) =>
              cure.edits.length === 0 ? (
                <span key={cure.says} class="word">
                  {cure.says}
                </span>
              ) : (
                <button key={cure.says} type="button" onClick={() => app.putAll(cure.edits)}>
                  {cure.says}
                </button>
              ),
            )}
          </div>
        </>
      )}
    </section>
  );
};

/** What is not known yet, and where it is read or said. */
const Open = ({ view }: { readonly view: PlateView }): JSX.Element | null => {
  const app = useApp();
  if (view.open.length === 0) return null;
  return (
    <section class="card" aria-label="What is not known yet">
      <h3>What is not known yet</h3>
      <ul>
        {view.open.map((o, i) => (
          <li key={i}>
            <strong>{o.title}</strong>: {o.because}
            {o.cure === '' ? '' : `; ${o.cure}`}.
          </li>
        ))}
      </ul>
      <div class="row">
        <button type="button" onClick={() => app.show('measure')}>
          To the parts in Measure
        </button>
        <button type="button" onClick={() => app.set({ textShown: true })}>
          To the text
        </button>
      </div>
    </section>
  );
};

const PlateWords = (): JSX.Element => (
  <>
    <EveryWord title="Everything the job can say about the plate" path={['plate']} />
    <EveryWord title="Everything the job can say about gaskets and what moves" only={['gaskets', 'moves']} />
  </>
);

/** Plate: each choice beside the picture that it changes, the checks as marks on it. */
export const Plate = (): JSX.Element => {
  const { history, answers } = useAppState(useApp());
  const [shown, setShown] = useState<'sideB' | 'sideA' | 'section'>('sideB');
  if (keysAt(history.text, ['plate']).length === 0)
    return (
      <>
        <BeginPlate />
        <PlateWords />
      </>
    );
  const view = answers.plate;
  return (
    <>
      <Pieces />
      <Refused screen="plate" />
      <div class="work">
        <div class="see">
          {view === null ? (
            <p class="waiting">{answers.refused.plate === undefined ? 'Designing the plate …' : 'No plate yet.'}</p>
          ) : (
            <>
              <div class="row" role="group" aria-label="Which picture">
                {(
                  [
                    ['sideB', 'Side B'],
                    ['sideA', 'Side A'],
                    ['section', 'Section'],
                  ] as const
                ).map(([name, word]) => (
                  <button key={name} type="button" aria-pressed={shown === name} onClick={() => setShown(name)}>
                    {word}
                  </button>
                ))}
              </div>
              {shown === 'sideB' ? (
                <SideB view={view} />
              ) : (
                <Picture
                  drawn={view[shown]}
                  over={shown === 'section' ? null : <Wrong view={view} box={view.sideA.box} hand={-1} />}
                />
              )}
            </>
          )}
        </div>
        <div class="do">
          {view === null ? null : (
            <>
              <ReportView report={view.report.filter((b) => b.kind === 'verdict')} />
              <Failures view={view} />
              <Open view={view} />
              <Clocking clocking={view.clocking} />
            </>
          )}
          <PlateFields />
          {view === null ? null : (
            <Fold title="All that is worked out about the plate">
              <ReportView report={view.report.filter((b) => b.kind !== 'verdict')} />
              {view.turning === null ? null : <Picture drawn={view.turning} />}
            </Fold>
          )}
        </div>
      </div>
      <PlateWords />
    </>
  );
};
