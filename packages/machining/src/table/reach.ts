import { type Point, type Speech, apply, distance, minusSign, say, sayAll, sayNumber } from '@fayplate/core';
import type { MachineSpec } from '@fayplate/job';
import type { ToolGroup } from '../operations/plan.js';
import type { TableAxes } from '../frame/axes.js';

/** A cut by its name, where it lies in the table's axes, mm. */
interface Reached {
  readonly id: string;
  readonly at: Point;
}

/**
 * How a plate is reached: in one setting, in one when turned a quarter, in two along an axis that share two cuts, or in
 * none of these.
 */
export type Settings =
  | { readonly kind: 'one' }
  | { readonly kind: 'turned' }
  | { readonly kind: 'beyond' }
  | {
      readonly kind: 'two';
      readonly axis: 'x' | 'y';
      readonly span: number;
      /** Cuts of the first setting, the two that both reach among them, and those that only the second reaches. */
      readonly first: readonly string[];
      readonly second: readonly string[];
      readonly common: readonly [string, string] | null;
    };

const spanOf = (cuts: readonly Reached[], axis: 'x' | 'y'): readonly [number, number] => [
  Math.min(...cuts.map((c) => c.at[axis])),
  Math.max(...cuts.map((c) => c.at[axis])),
];

/**
 * How the cuts of a plate are reached by a table that travels so far, mm. A slot or a pocket is several places of one
 * name, and is cut whole in one setting.
 */
export const settingsFor = (cuts: readonly Reached[], travel: { readonly x: number; readonly y: number }): Settings => {
  if (cuts.length === 0) return { kind: 'one' };
  const [[left, right], [low, high]] = [spanOf(cuts, 'x'), spanOf(cuts, 'y')];
  const [wide, tall] = [right - left, high - low];
  const within = (span: number, reach: number): boolean => span <= reach + 1e-9;
  if (within(wide, travel.x) && within(tall, travel.y)) return { kind: 'one' };
  if (within(wide, travel.y) && within(tall, travel.x)) return { kind: 'turned' };
  const axis = wide > travel.x ? 'x' : 'y';
  const [span, reach, across, other] =
    axis === 'x' ? [wide, travel.x, tall, travel.y] : [tall, travel.y, wide, travel.x];
  if (!within(across, other) || !within(span, 2 * reach)) return { kind: 'beyond' };
  const from = axis === 'x' ? left : low;
  const names = [...new Set(cuts.map((c) => c.id))];
  const own = (id: string): readonly Reached[] => cuts.filter((c) => c.id === id);
  const inFirst = (id: string): boolean => own(id).every((c) => c.at[axis] <= from + reach + 1e-9);
  const inSecond = (id: string): boolean => own(id).every((c) => c.at[axis] >= from + span - reach - 1e-9);
  if (!names.every((id) => inFirst(id) || inSecond(id))) return { kind: 'beyond' };
  // An indicator finds a round hole again, and only that.
  const both = cuts.filter((c) => own(c.id).length === 1 && inFirst(c.id) && inSecond(c.id));
  const pairs = both.flatMap((a, i) => both.slice(i + 1).map((b) => [a, b] as const));
  const [farthest] = pairs.toSorted(([a, b], [c, d]) => distance(c.at, d.at) - distance(a.at, b.at));
  return {
    kind: 'two',
    axis,
    span,
    first: names.filter(inFirst),
    second: names.filter((id) => !inFirst(id)),
    common: farthest === undefined ? null : [farthest[0].id, farthest[1].id],
  };
};

/**
 * How the second of two settings is found: the plate is slid along, and a pair of holes that the first has drilled
 * stands where it stood.
 */
export const againWords = (
  settings: Extract<Settings, { readonly kind: 'two' }>,
  setOf: (hole: string) => Point | null,
  speech: Speech,
): string => {
  const at = (p: Point): string => `X ${minusSign(sayNumber(p.x, speech))}, Y ${minusSign(sayNumber(p.y, speech))}`;
  const [a, b] = (settings.common ?? []).map((id) => ({ id, at: setOf(id) }));
  const slide =
    'Unclamp the plate and slide it along ' +
    `${settings.axis.toUpperCase()} until ${sayAll(settings.second)} can be reached.`;
  if (a?.at == null || b?.at == null)
    return (
      `${slide} Set it by the two pins in the waste: bring the spindle over the one with an indicator, give it the X ` +
      'and Y that it had, and turn the plate until the other has its own.'
    );
  return (
    `${slide} Bring the spindle over ${a.id} with an indicator and set it to ${at(a.at)}; turn the plate until ` +
    `${b.id} stands at ${at(b.at)}, and clamp it: every place below then counts from the same zero.`
  );
};

/** Every place that a tool goes to, in the table's axes, seen from side B. */
export const reachedOf = (groups: readonly ToolGroup[], axes: TableAxes): readonly Reached[] => {
  const seen = new Map<string, Reached>();
  for (const { hole, at } of groups.flatMap((g) => g.cuts)) {
    const place = apply(axes.motion, at);
    seen.set(`${hole} ${place.x.toFixed(6)} ${place.y.toFixed(6)}`, { id: hole, at: place });
  }
  return [...seen.values()];
};

/**
 * What to do where the table does not travel as far as the plate's cuts lie apart; nothing where it does, or is not
 * said to.
 */
export const reachWords = (
  machine: MachineSpec | null,
  groups: readonly ToolGroup[],
  axes: TableAxes,
  speech: Speech,
): readonly string[] => {
  const travel = machine?.travel ?? null;
  if (travel === null) return [];
  const settings = settingsFor(reachedOf(groups, axes), travel);
  const places = speech.unit === 'in' ? 1 : 0;
  const table = `the table travels ${say(travel.x, speech, places)} along X and ${say(travel.y, speech, places)} along Y`;
  if (settings.kind === 'one')
    return axes.quarter === true
      ? [
          `The plate lies turned by a quarter, its 12 o’clock to the left as seen from side B, since ${table}. All ` +
            'X and Y below are for it as it lies.',
        ]
      : [];
  if (settings.kind === 'turned')
    return [
      `The cuts lie farther apart than ${table}: clamp the plate turned by a quarter, its 12 o’clock to the other ` +
        'side, and change X and Y over.',
    ];
  if (settings.kind === 'beyond')
    return [
      'The cuts lie farther apart than two settings reach ' +
        `(${table}): drill it on a larger machine, or by the template as far as its ± will do.`,
    ];
  const { axis, span, first, second, common } = settings;
  const pick =
    common === null
      ? 'No two cuts lie within both: drill two reamed holes for pins ' +
        'in the waste, where both settings reach, in the first.'
      : `Both reach ${sayAll(common)}: the second is set by them.`;
  return [
    `The cuts lie ${say(span, speech, places)} apart along ${axis.toUpperCase()}, and ${table}: drill it in two ` +
      `settings. First ${sayAll(first)}; then ${sayAll(second)}. ${pick}`,
  ];
};
