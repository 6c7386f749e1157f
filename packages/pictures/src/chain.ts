import { type Speech, sayMeasure, say } from '@fayplate/core';
import {
  type Lettering,
  type Picture,
  type Shape,
  arrow,
  group,
  line,
  pens,
  polygon,
  rectangle,
  text,
} from '@fayplate/drawing';
import type { StackLimit, StackSpec } from '@fayplate/job';
import type { StackCheck, StackResult } from '@fayplate/plate';
import { type Scale, sheet } from './sheet.js';

const WIDE = 150;
const scales = [1, 2, 5, 10, 20, 50, 100, 200, 500, 1000] as const;

interface Step {
  readonly name: string;
  readonly by: number;
  readonly plusMinus: number;
  /** What is to be made: said as finely as it is asked for in a shop. */
  readonly made?: true;
}

/** 0.001 in or 0.01 mm. */
const madePlaces = (speech: Speech): number => (speech.unit === 'in' ? 3 : 2);

/** The links of one limit in the order of its sum, the unknown at the thickness found (shims lie with it). */
const stepsOf = (limit: StackLimit, spec: StackSpec, total: number, named: string, alone: boolean): readonly Step[] =>
  [...limit.sum].map(([name, factor]) => {
    const link = spec.links.find((l) => l.name === name);
    return link === undefined
      ? {
          name: named,
          by: factor * total,
          plusMinus: Math.abs(factor) * (spec.unknown.made ?? 0),
          // Shims with it are finer than what is made.
          ...(alone ? { made: true as const } : {}),
        }
      : { name, by: factor * link.value, plusMinus: Math.abs(factor) * link.plusMinus };
  });

const spanOf = (steps: readonly Step[]): readonly [number, number] => {
  let at = 0;
  let low = 0;
  let high = 0;
  for (const s of steps) {
    at += s.by;
    low = Math.min(low, at);
    high = Math.max(high, at);
  }
  return [low, high];
};

const chainOf = (
  limit: StackLimit,
  check: StackCheck | undefined,
  steps: readonly Step[],
  per: number,
  column: number,
  top: number,
  speech: Speech,
  scale: Scale,
): { readonly shapes: readonly Shape[]; readonly bottom: number } => {
  const shapes: Shape[] = [text('note', { x: 0, y: top }, limit.name, { capital: scale.capital, weight: 'bold' })];
  const row = 3.4 * scale.capital;
  let y = top - 2.2 * scale.capital;
  let at = 0;
  for (const s of steps) {
    const from = { x: at / per, y };
    const to = { x: (at + s.by) / per, y };
    shapes.push(
      ...arrow('note', from, to, pens.narrow, scale.capital * 0.9),
      ...(s.plusMinus > 0
        ? [
            rectangle(
              'note',
              { left: to.x - s.plusMinus / per, right: to.x + s.plusMinus / per, bottom: y - 0.5, top: y + 0.5 },
              null,
              0.6,
            ),
          ]
        : []),
      line('note', to, { x: to.x, y: y - row }, pens.hair),
      line('note', { x: Math.max(from.x, to.x) + 1, y }, { x: column - 1, y }, { ...pens.hair, grey: 0.6 }),
      text(
        'note',
        { x: column, y: y - scale.small / 2 },
        `${s.by < 0 ? 'less' : 'plus'} ${s.name} ` +
          (s.plusMinus > 0
            ? sayMeasure(Math.abs(s.by), s.plusMinus, speech)
            : say(Math.abs(s.by), speech, s.made === true ? madePlaces(speech) : undefined)),
        { capital: scale.small },
      ),
    );
    at += s.by;
    y -= row;
  }
  const end = at / per;
  shapes.push(line('note', { x: 0, y: top - 2.2 * scale.capital }, { x: 0, y: y - scale.capital }, pens.hair));
  shapes.push(line('note', { x: 0, y }, { x: end, y }, { ...pens.wide, width: 0.9 }));
  for (const limitValue of [limit.least, limit.most]) {
    if (limitValue === null) continue;
    const x = limitValue / per;
    shapes.push(
      line('note', { x, y: y + scale.capital }, { x, y: y - scale.capital }, pens.wide),
      polygon(
        'note',
        [
          { x, y: y - scale.capital },
          { x: x - 0.8, y: y - scale.capital - 1.4 },
          { x: x + 0.8, y: y - scale.capital - 1.4 },
        ],
        null,
        0,
      ),
    );
  }
  if (check !== undefined) {
    const [low, high] = check.worst;
    shapes.push(
      rectangle('note', { left: low / per, right: high / per, bottom: y - 0.7, top: y + 0.7 }, pens.hair, 0.7),
    );
    const bounds = [
      ...(limit.least === null ? [] : [`at least ${say(limit.least, speech)}`]),
      ...(limit.most === null ? [] : [`at most ${say(limit.most, speech)}`]),
    ].join(', ');
    shapes.push(
      text(
        'note',
        { x: 0, y: y - 3.4 * scale.capital },
        `${limit.name}: ${say(low, speech)} to ${say(high, speech)} in the worst case; ${bounds}. ` +
          (check.ok ? 'Holds.' : 'Does not hold.'),
        { capital: scale.small },
      ),
    );
  }
  return { shapes, bottom: y - 7.5 * scale.capital };
};

/**
 * The axial chain of every limit, drawn to a stated scale: each link an arrow from the end of the one before, grey its
 * ±, the sum a wide bar.
 */
export const chainPicture = (spec: StackSpec, result: StackResult, speech: Speech, lettering: Lettering): Picture => {
  const total = result.at;
  const named = [
    result.unknown,
    ...(result.spacer === null ? [] : ['spacer']),
    ...(result.shims.length === 0 ? [] : ['shims']),
  ].join(' and ');
  const chains = spec.limits.map((limit) => ({
    limit,
    steps: stepsOf(limit, spec, total, named, named === result.unknown),
    check: result.limits.find((c) => c.name === limit.name),
  }));
  const extent = Math.max(1, ...chains.map(({ steps }) => spanOf(steps)[1] - spanOf(steps)[0]));
  const per = scales.find((s) => extent / s <= WIDE) ?? 1000;
  const scale: Scale = { capital: 3, small: 2.5, gap: 3 };
  const column = Math.max(...chains.map(({ steps }) => spanOf(steps)[1])) / per + 5;
  let top = 0;
  const shapes = chains.map(({ limit, steps, check }) => {
    const drawn = chainOf(limit, check, steps, per, column, top, speech, scale);
    top = drawn.bottom;
    return group(limit.name, drawn.shapes);
  });
  const chosen =
    result.chosen === null
      ? `${result.conflict === null ? 'Nothing on hand fits' : `No ${result.unknown} meets every limit`}; drawn at ` +
        `${say(total, speech)}.`
      : `Drawn with ${result.unknown} ` +
        say(result.chosen, speech, madePlaces(speech)) +
        (result.spacer === null ? '' : ` and a spacer of ${say(result.spacer, speech)}`) +
        (result.shims.length > 0 ? ` and shims ${result.shims.map((s) => say(s, speech)).join(' + ')}` : '') +
        '.';
  return sheet(
    'The chain along the shaft',
    shapes,
    [chosen, `Grey: each link's ± and what the sum may be in the worst case; triangles: the limits.`],
    scale,
    1 / per,
    lettering,
  );
};
