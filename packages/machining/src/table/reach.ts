import { type Point, type Speech, apply, distance, say, sayAll } from '@fayplate/core';
import type { MachineSpec } from '@fayplate/job';
import type { Plate } from '@fayplate/plate';
import type { TableAxes } from '../frame/axes.js';

/** A cut by its name, where it lies in the table's axes, mm. */
export interface Reached {
  readonly id: string;
  readonly at: Point;
}

/** How a plate is reached: in one setting, in one when turned a quarter, in two along an axis that share two cuts, or in none of these. */
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

/** How the cuts of a plate are reached by a table that travels so far, mm. */
export const settingsFor = (cuts: readonly Reached[], travel: { readonly x: number; readonly y: number }): Settings => {
  if (cuts.length === 0) return { kind: 'one' };
  const [[left, right], [low, high]] = [spanOf(cuts, 'x'), spanOf(cuts, 'y')];
  const [wide, tall] = [right - left, high - low];
  if (wide <= travel.x && tall <= travel.y) return { kind: 'one' };
  if (wide <= travel.y && tall <= travel.x) return { kind: 'turned' };
  const axis = wide > travel.x ? 'x' : 'y';
  const [span, reach, across, other] =
    axis === 'x' ? [wide, travel.x, tall, travel.y] : [tall, travel.y, wide, travel.x];
  if (across > other || span > 2 * reach) return { kind: 'beyond' };
  const from = axis === 'x' ? left : low;
  const inFirst = (c: Reached): boolean => c.at[axis] <= from + reach + 1e-9;
  const inSecond = (c: Reached): boolean => c.at[axis] >= from + span - reach - 1e-9;
  const both = cuts.filter((c) => inFirst(c) && inSecond(c));
  const pairs = both.flatMap((a, i) => both.slice(i + 1).map((b) => [a, b] as const));
  const [farthest] = pairs.toSorted(([a, b], [c, d]) => distance(c.at, d.at) - distance(a.at, b.at));
  return {
    kind: 'two',
    axis,
    span,
    first: cuts.filter(inFirst).map((c) => c.id),
    second: cuts.filter((c) => !inFirst(c)).map((c) => c.id),
    common: farthest === undefined ? null : [farthest[0].id, farthest[1].id],
  };
};

/** What to do where the table does not travel as far as the plate's cuts lie apart; nothing where it does, or is not said to. */
export const reachWords = (
  plate: Plate,
  machine: MachineSpec | null,
  axes: TableAxes,
  speech: Speech,
): readonly string[] => {
  const travel = machine?.travel ?? null;
  if (travel === null) return [];
  const cuts = [...plate.holes, ...plate.bores].map((c) => ({ id: c.id, at: apply(axes.motion, c) }));
  const settings = settingsFor(cuts, travel);
  const places = speech.unit === 'in' ? 1 : 0;
  const table = `the table travels ${say(travel.x, speech, places)} along X and ${say(travel.y, speech, places)} along Y`;
  if (settings.kind === 'one') return [];
  if (settings.kind === 'turned')
    return [`The cuts lie farther apart than ${table}: clamp the plate turned by a quarter, and change X and Y over.`];
  if (settings.kind === 'beyond')
    return [
      `The cuts lie farther apart than two settings reach (${table}): drill it on a larger machine, or by the template.`,
    ];
  const { axis, span, first, second, common } = settings;
  const pick =
    common === null
      ? 'No two cuts lie within both: drill two reamed holes for pins in the waste, where both settings reach, in the first.'
      : `Both reach ${sayAll(common)}: for the second bring the spindle over the one with an indicator, then turn the plate until the other stands where it should.`;
  return [
    `The cuts lie ${say(span, speech, places)} apart along ${axis.toUpperCase()}, and ${table}: drill it in two settings. First ${sayAll(first)}; then ${sayAll(second)}. ${pick}`,
  ];
};
