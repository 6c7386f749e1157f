import type { ComponentChildren, JSX } from 'preact';
import { useState } from 'preact/hooks';
import { useApp, useAppState } from '../app/use.js';
import { headOf, readingLines } from '../edit/readings.js';
import type { Drawn, Mark, PlanItem } from '../work/shown.js';
import { Fold } from './field.js';
import { Picture } from './picture.js';
import { ReadingBox, faultOf, partsOf } from './reading-box.js';
import { headFor, kindsFor, touchOf } from './touch.js';
import { TurnRing } from './turn-ring.js';

interface ReadingsProps {
  /** Null: the drilled plate. */
  readonly face: string | null;
  readonly drawn: Drawn;
  readonly marks: readonly Mark[];
  readonly plan: readonly PlanItem[];
  /** No more of the plan is needed; then what would improve the places. */
  readonly enough?: boolean;
  readonly improving?: readonly PlanItem[];
  readonly says: (head: string) => string;
  readonly suspects: readonly { readonly reading: string; readonly says: string }[];
  readonly onPoint?: ((x: number, y: number) => void) | undefined;
  /** The drawing turned by hand, degrees clockwise; left out: it cannot be. */
  readonly turn?: { readonly at: number; readonly to: (degrees: number) => void };
  /** What stands in doubt, with a way to take one reading in hand. */
  readonly doubt?: ((hold: (head: string) => void) => JSX.Element) | undefined;
  /** Beside the reading: what is known so far. */
  readonly children?: ComponentChildren;
}

const Lit = ({
  head,
  marks,
  size,
}: {
  readonly head: string;
  readonly marks: readonly Mark[];
  readonly size: number;
}): JSX.Element => {
  const { lines, dots } = touchOf(head, marks);
  return (
    <g class="lit">
      {lines.map(([a, b], i) => (
        <line key={i} x1={a.x} y1={-a.y} x2={b.x} y2={-b.y} stroke-width={size * 0.35} />
      ))}
      {dots.map((p, i) => (
        <circle key={i} cx={p.x} cy={-p.y} r={size * 0.75} />
      ))}
    </g>
  );
};

/**
 * Measuring by the plan or by pointing: the picture with the two edges lit, the reading in hand, and every reading
 * taken so far.
 */
export const Readings = (props: ReadingsProps): JSX.Element => {
  const { face, drawn, marks, enough = false, improving = [], says, suspects, onPoint, doubt, turn, children } = props;
  const app = useApp();
  const { history, answers } = useAppState(app);
  const [chosen, setChosen] = useState<string | null>(null);
  const [skipped, setSkipped] = useState<readonly string[]>([]);
  const [turning, setTurning] = useState(false);
  const [picked, setPicked] = useState<readonly string[]>([]);
  const lines = readingLines(history.text, face);
  const taken = new Set(lines.map(headOf));
  // With enough readings, what is not taken of the plan is left.
  const plan = enough ? props.plan.filter((p) => taken.has(p.head)) : props.plan;
  const open = plan.filter((p) => !taken.has(p.head) && !skipped.includes(p.head));
  const head = chosen ?? open[0]?.head ?? null;
  const left = plan.filter((p) => !taken.has(p.head)).length;
  const planned = [...plan, ...improving].find((p) => p.head === head);
  const item: PlanItem | null = head === null ? null : (planned ?? { head, instrument: null, says: says(head) });
  const size = Math.max(drawn.box.right - drawn.box.left, drawn.box.top - drawn.box.bottom) / 100;
  const reach = 1.1 * Math.max(...Object.values(drawn.box).map(Math.abs));
  const pickedMarks = picked.flatMap((id) => marks.filter((m) => m.id === id));
  const kinds = kindsFor(pickedMarks);
  const hold = (next: string): void => setChosen(next);
  const pick = (id: string): void => {
    const next = picked.includes(id) ? picked.filter((p) => p !== id) : [...picked, id].slice(-4);
    setPicked(next);
    const [usual] = kindsFor(next.flatMap((p) => marks.filter((m) => m.id === p)));
    if (usual !== undefined && next.length > 1) hold(headFor(usual, next));
  };
  const go = (): void => {
    setPicked([]);
    setChosen(open.find((p) => p.head !== head)?.head ?? null);
  };
  return (
    <div class="work">
      <div class="see">
        <Picture
          drawn={drawn}
          marks={marks}
          picked={picked}
          onPick={pick}
          onPoint={onPoint}
          high={58}
          room={turning ? 1.08 * reach : 0}
          over={
            <>
              {item === null ? null : <Lit head={item.head} marks={marks} size={size} />}
              {turning && turn !== undefined ? (
                <TurnRing r={reach} at={turn.at} label="Turn the drawing" onTurn={turn.to} />
              ) : null}
            </>
          }
        />
        {turn === undefined ? null : (
          <div class="row">
            <button type="button" aria-pressed={turning} onClick={() => setTurning(!turning)}>
              Turn the drawing as the part lies
            </button>
            {turn.at === 0 ? null : (
              <button type="button" onClick={() => turn.to(0)}>
                Straight again
              </button>
            )}
          </div>
        )}
      </div>
      <div class="do">
        <section class="card" aria-label="The reading in hand">
          <p class="count">
            {enough
              ? lines.length === 0
                ? 'The standard gives every place. Pick features in the drawing to take readings that test it.'
                : 'Enough readings are taken. Pick features in the drawing to take more.'
              : plan.length === 0
                ? 'Pick features in the drawing to take a reading.'
                : left === 0
                  ? 'Every planned reading is taken. Pick features in the drawing to take more.'
                  : `Reading ${plan.length - left + 1} of ${plan.length} in the plan`}
          </p>
          {picked.length === 0 ? null : (
            <div class="row" role="group" aria-label="Kind of reading">
              <span>
                Picked {picked.join(', ')}
                {picked.length < 2 ? '; pick another, or:' : ':'}
              </span>
              {kinds.map((kind) => (
                <button
                  key={kind}
                  type="button"
                  aria-pressed={head === headFor(kind, picked)}
                  onClick={() => hold(headFor(kind, picked))}
                >
                  {kind}
                </button>
              ))}
              <button type="button" onClick={() => setPicked([])}>
                Clear
              </button>
            </div>
          )}
          {item === null ? null : (
            <div onFocusCapture={() => hold(item.head)}>
              <ReadingBox
                face={face}
                item={item}
                place={face ?? 'drilled'}
                onNext={go}
                onSkip={() => {
                  setSkipped([...skipped, item.head]);
                  go();
                }}
              />
            </div>
          )}
        </section>
        {doubt?.(hold)}
        {children}
        <Fold title={`Readings taken: ${lines.length}`} open={suspects.length > 0}>
          {lines.length === 0 ? <p>None yet.</p> : null}
          <ol class="taken">
            {lines.map((line, i) => {
              const parts = partsOf(line);
              const doubt = suspects.find((s) => s.reading === String(i + 1));
              const fault = faultOf(answers.faults, face, i);
              return (
                <li key={i} class={doubt === undefined && fault === undefined ? '' : 'bad'}>
                  <button
                    type="button"
                    class="line"
                    aria-pressed={headOf(line) === head}
                    onClick={() => hold(headOf(line))}
                  >
                    <span class="which">{headOf(line)}</span> <span class="value">{parts.value}</span>
                    {parts.by === '' ? '' : ` by ${parts.by}`}
                    {parts.aside ? ', left out' : ''}
                  </button>
                  {doubt === undefined ? null : <p class="fault">This reading {doubt.says}</p>}
                  {fault === undefined ? null : <p class="fault">{fault.words}</p>}
                </li>
              );
            })}
          </ol>
          {enough && improving.length > 0 ? (
            <>
              <h3>Any of these would improve the worst centre</h3>
              <ol class="taken">
                {improving.map((p) => (
                  <li key={p.head}>
                    <button type="button" class="line" onClick={() => hold(p.head)}>
                      <span class="which">{p.head}</span>
                    </button>
                  </li>
                ))}
              </ol>
            </>
          ) : null}
          {plan.length > 0 && left > 0 ? (
            <>
              <h3>Still to take, in this order</h3>
              <ol class="taken">
                {plan
                  .filter((p) => !taken.has(p.head))
                  .map((p) => (
                    <li key={p.head}>
                      <button type="button" class="line" onClick={() => hold(p.head)}>
                        <span class="which">{p.head}</span>
                      </button>
                    </li>
                  ))}
              </ol>
            </>
          ) : null}
        </Fold>
      </div>
    </div>
  );
};
