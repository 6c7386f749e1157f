import { minusSign } from '@fayplate/core';
import type { JSX, TargetedInputEvent } from 'preact';
import { useState } from 'preact/hooks';
import type { App } from '../app/app.js';
import { useApp, useAppState } from '../app/use.js';
import { keysAt, typedAt } from '../edit/peek.js';
import { Fold } from '../parts/field.js';
import { Picture } from '../parts/picture.js';
import { ReportView } from '../parts/report.js';
import { Pieces } from '../parts/pieces.js';
import { EveryWord } from '../parts/words/every-word.js';
import { Refused } from '../parts/standing.js';
import { TurnRing } from '../parts/turn-ring.js';
import type { Drawn, PlateView } from '../work/protocol.js';
import { BeginPlate, PlateFields } from './plate-fields.js';

/** So many arcs are said in numbers too. */
const FEW = 4;

/** The second face turned against the first: typed, moved along, or dragged on the ring about side B. */
const Clocking = ({ clocking }: { readonly clocking: PlateView['clocking'] }): JSX.Element => {
  const app = useApp();
  const { history } = useAppState(app);
  const { at, safe } = clocking;
  return (
    <Fold title="Clocking: turn the second part" open>
      <div class="fields">
        <div class="field">
          <label for="clocking">Degrees clockwise</label>
          <input
            id="clocking"
            type="range"
            min={-180}
            max={180}
            step={0.5}
            value={at}
            aria-valuetext={`${at.toFixed(1)} degrees clockwise`}
            onInput={(event: TargetedInputEvent<HTMLInputElement>) => turnTo(app, Number(event.currentTarget.value))}
          />
        </div>
        <div class="field">
          <label for="clocking-typed">as typed</label>
          <input
            id="clocking-typed"
            type="text"
            autocomplete="off"
            value={typedAt(history.text, ['plate', 'clocking'])}
            placeholder="0 deg"
            onInput={(event: TargetedInputEvent<HTMLInputElement>) =>
              app.put(['plate', 'clocking'], event.currentTarget.value, 'plate.clocking')
            }
          />
        </div>
      </div>
      <p class="help">
        {safe.length === 0
          ? 'No angle puts every check right that turning can change.'
          : `Drag the dot on the ring about side B. On its thick arcs every check holds that turning can change${
              safe.length > FEW
                ? ''
                : ': ' +
                  safe.map(([from, to]) => `${minusSign(from.toFixed(1))}° to ${minusSign(to.toFixed(1))}°`).join(', ')
            }.`}
      </p>
    </Fold>
  );
};

const turnTo = (app: App, degrees: number): void =>
  app.put(['plate', 'clocking'], `${Number(degrees.toFixed(1))} deg`, 'plate.clocking');

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
    <EveryWord title="Everything the job can say of the plate" path={['plate']} />
    <EveryWord title="Everything the job can say of gaskets and what moves" only={['gaskets', 'moves']} />
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
