import type { JSX, TargetedInputEvent, TargetedPointerEvent } from 'preact';
import { useState } from 'preact/hooks';
import { useApp, useAppState } from '../app/use.js';
import { keysAt, typedAt } from '../edit/peek.js';
import { Fold } from '../parts/field.js';
import { Picture } from '../parts/picture.js';
import { ReportView } from '../parts/report.js';
import { Refused } from '../parts/standing.js';
import type { PlateView } from '../work/protocol.js';
import { BeginPlate, PlateFields } from './plate-fields.js';

const R = 40;
const polar = (degrees: number, r: number): readonly [number, number] => [
  r * Math.sin((degrees * Math.PI) / 180),
  -r * Math.cos((degrees * Math.PI) / 180),
];
const arc = (from: number, to: number, r: number): string => {
  const [x, y] = polar(from, r);
  if (to - from >= 359.9) return `M 0 ${-r} A ${r} ${r} 0 1 1 0 ${r} A ${r} ${r} 0 1 1 0 ${-r}`;
  const [u, v] = polar(to, r);
  return `M ${x} ${y} A ${r} ${r} 0 ${to - from > 180 ? 1 : 0} 1 ${u} ${v}`;
};

/** The second face turned against the first: a dial to drag, with the arcs where every check holds. */
const Clocking = ({ clocking }: { readonly clocking: PlateView['clocking'] }): JSX.Element => {
  const app = useApp();
  const { history } = useAppState(app);
  const [dragged, setDragged] = useState<number | null>(null);
  const typed = typedAt(history.text, ['plate', 'clocking']);
  const at = dragged ?? clocking.at;
  const set = (degrees: number): void =>
    app.put(['plate', 'clocking'], `${Number(degrees.toFixed(1))} deg`, 'plate.clocking');
  const angleOf = (event: TargetedPointerEvent<SVGSVGElement>): number => {
    const box = event.currentTarget.getBoundingClientRect();
    const x = event.clientX - box.left - box.width / 2;
    const y = event.clientY - box.top - box.height / 2;
    return Math.round((Math.atan2(x, -y) * 180) / Math.PI);
  };
  const [hx, hy] = polar(at, R);
  return (
    <Fold title="Clocking: turn the second part" open>
      <div class="dial">
        <svg
          viewBox="-50 -50 100 100"
          role="img"
          aria-label={`Clocking ${at.toFixed(1)} degrees clockwise; ${clocking.safe.length === 0 ? 'no angle puts every check right' : `every check that turning can change holds ${clocking.safe.map(([f, t]) => `from ${f.toFixed(1)} to ${t.toFixed(1)}`).join(' and ')}`}`}
          onPointerDown={(event: TargetedPointerEvent<SVGSVGElement>) => {
            event.currentTarget.setPointerCapture(event.pointerId);
            setDragged(angleOf(event));
          }}
          onPointerMove={(event: TargetedPointerEvent<SVGSVGElement>) => {
            if (dragged !== null) setDragged(angleOf(event));
          }}
          onPointerUp={() => {
            if (dragged !== null) set(dragged);
            setDragged(null);
          }}
          onPointerCancel={() => setDragged(null)}
        >
          <circle class="ring" r={R} />
          {clocking.safe.map(([from, to], i) => (
            <path key={i} class="safe" d={arc(from, to, R)} />
          ))}
          <line class="hand" x1={0} y1={0} x2={hx} y2={hy} />
          <circle class="grip" cx={hx} cy={hy} r={6} />
          <text y={24} class="figure">
            {at.toFixed(1)}°
          </text>
        </svg>
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
            onInput={(event: TargetedInputEvent<HTMLInputElement>) => set(Number(event.currentTarget.value))}
          />
          <label for="clocking-typed">as typed</label>
          <input
            id="clocking-typed"
            type="text"
            autocomplete="off"
            value={typed}
            placeholder="0 deg"
            onInput={(event: TargetedInputEvent<HTMLInputElement>) =>
              app.put(['plate', 'clocking'], event.currentTarget.value, 'plate.clocking')
            }
          />
          <p class="help">Thick arcs: there every check holds that turning can change.</p>
        </div>
      </div>
    </Fold>
  );
};

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

/** Plate: each choice beside the picture that it changes, the checks as marks on it. */
export const Plate = (): JSX.Element => {
  const { history, answers } = useAppState(useApp());
  const [shown, setShown] = useState<'sideB' | 'sideA' | 'section'>('sideB');
  if (keysAt(history.text, ['plate']).length === 0) return <BeginPlate />;
  const view = answers.plate;
  return (
    <>
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
              <Picture
                drawn={view[shown]}
                over={
                  shown === 'section'
                    ? null
                    : view.checks.map((c, i) =>
                        c.at === null ? null : (
                          <circle
                            key={i}
                            class="wrong"
                            cx={(shown === 'sideA' ? -1 : 1) * c.at[0]}
                            cy={-c.at[1]}
                            r={(view[shown].box.right - view[shown].box.left) / 40}
                          >
                            <title>{`${c.title}, ${c.of}: ${c.value}, must be ${c.limit}`}</title>
                          </circle>
                        ),
                      )
                }
              />
            </>
          )}
        </div>
        <div class="do">
          {view === null ? null : (
            <>
              <ReportView report={view.report.filter((b) => b.kind === 'verdict')} />
              <Failures view={view} />
              <Clocking clocking={view.clocking} />
            </>
          )}
          <PlateFields />
          {view === null ? null : (
            <Fold title="Every word about the plate">
              <ReportView report={view.report.filter((b) => b.kind !== 'verdict')} />
              {view.turning === null ? null : <Picture drawn={view.turning} />}
            </Fold>
          )}
        </div>
      </div>
    </>
  );
};
