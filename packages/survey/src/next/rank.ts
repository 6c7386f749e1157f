import { type Point, apply } from '@fayplate/core';
import type { Reading } from '@fayplate/job';
import type { Adjustment } from '../adjust/adjustment.js';
import { centreCovariances } from '../frame/covariance.js';
import type { Datum } from '../frame/datum.js';
import { ellipse95, sizeOf } from '../frame/located.js';
import { type Placed, along, shareOf } from '../frame/placed.js';
import { observe } from '../network/observe.js';
import type { Matrix2, NextReading } from '../types.js';
import { type Rough, anglesFor, canBeRead, candidatesFor, toolsOf } from './candidates.js';
import { planReadings } from './plan.js';

/** How many readings are proposed. */
const PROPOSED = 5;
/** A feature is named where its radius falls by this share at least. */
const NAMED = 0.05;
/**
 * A reading is worth proposing where the worst radius, or the root mean square of all, falls by this share at least.
 */
const WORTH = 0.01;
/** On a face too large to try every pair: partners tried for each of the worst features, and how many of these. */
const EVERY_PAIR = 60;
const PARTNERS = 60;
const WORST = 3;

const radiusOf = (c: Matrix2): number => ellipse95(c).major;

/**
 * Slopes of a proposed reading by the unknowns, and the square of its sigma, the shared zero error of an instrument not
 * used yet included.
 */
interface Row {
  readonly slopes: Float64Array;
  readonly variance: number;
}

const rowsOf = (adjustment: Adjustment, reading: Reading): readonly Row[] => {
  const { network, values } = adjustment;
  const { unknowns } = network;
  const scratch = new Float64Array(16);
  const zero = network.instruments.get(reading.instrument ?? '')?.zero ?? 0;
  const unmet = unknowns.zeros.has(reading.instrument ?? '') ? 0 : (zero / 2) ** 2;
  const thread =
    reading.kind === 'dia'
      ? network.observations.find((o) => o.id === `diameter ${reading.features[0] ?? ''}`)
      : undefined;
  const feature = network.face.features.find((f) => f.id === reading.features[0]);
  return observe(reading, unknowns).flatMap((o): readonly Row[] => {
    o.model(values, scratch);
    const slopes = new Float64Array(unknowns.count);
    for (const [k, u] of o.unknowns.entries()) slopes[u] = scratch[k] as number;
    const own = o.sigma ** 2 + unmet;
    // A measured diameter takes the place of the thread's limits: what it adds is the difference of the two.
    if (thread === undefined || feature?.diameterFrom !== 'thread') return [{ slopes, variance: own }];
    const gain = 1 / own - 1 / thread.sigma ** 2;
    return gain > 0 ? [{ slopes, variance: 1 / gain }] : [];
  });
};

const inner = (a: Float64Array, b: Float64Array): number => a.reduce((sum, v, i) => sum + v * (b[i] as number), 0);

/**
 * Covariances after more observations, one after another: C − c cᵀ / (σ² + a c) with c = C a, each centre's in the
 * face's frame.
 */
const after = (
  before: readonly Matrix2[],
  placed: readonly Placed[],
  datum: Datum,
  adjustment: Adjustment,
  rows: readonly Row[],
): readonly Matrix2[] => {
  const taken: { readonly column: Float64Array; readonly s: number }[] = [];
  let now = before;
  for (const { slopes, variance } of rows) {
    const column = adjustment.solve(slopes);
    for (const t of taken) {
      const share = inner(t.column, slopes) / t.s;
      for (let i = 0; i < column.length; i++) column[i] = (column[i] as number) - share * (t.column[i] as number);
    }
    const s = variance + inner(slopes, column);
    const share = shareOf(datum, column);
    taken.push({ column, s });
    now = placed.map((p, i) => {
      const [[xx, xy], [, yy]] = now[i] ?? [
        [0, 0],
        [0, 0],
      ];
      const x = along(p.axes[0], p.slots, column, share);
      const y = along(p.axes[1], p.slots, column, share);
      const off = xy - (x * y) / s;
      return [
        [Math.max(xx - (x * x) / s, 0), off],
        [off, Math.max(yy - (y * y) / s, 0)],
      ];
    });
  }
  return now;
};

/**
 * Readings worth thinking of: every pair on a small face, else each of the worst features with the nearest and with the
 * middle.
 */
const candidates = (
  adjustment: Adjustment,
  placed: readonly Placed[],
  radii: readonly number[],
): readonly Reading[] => {
  const { face, instruments } = adjustment.network;
  const tools = toolsOf(face, instruments);
  const byId = new Map(face.features.map((f) => [f.id, f]));
  const rough = placed
    .map((p, i): Rough & { readonly worst: number } => {
      const feature = byId.get(p.slots.id);
      if (feature === undefined) throw new RangeError(`no feature ${p.slots.id}`);
      return { feature, at: p.point, radius: sizeOf(adjustment, p.slots).radius, worst: radii[i] ?? 0 };
    })
    .filter((r) => canBeRead(r.feature));
  const small = rough.length <= EVERY_PAIR;
  const from = small ? rough : [...rough].sort((a, b) => b.worst - a.worst).slice(0, WORST);
  const singles = from.flatMap((a) => candidatesFor(face, a, null, tools));
  const pairs = from.flatMap((a, i) => {
    const near = small
      ? rough.slice(i + 1)
      : [...rough]
          .filter((b) => b !== a)
          .sort((b, c) => Math.hypot(b.at.x - a.at.x, b.at.y - a.at.y) - Math.hypot(c.at.x - a.at.x, c.at.y - a.at.y))
          .slice(0, PARTNERS);
    return near.flatMap((b) => [...candidatesFor(face, a, b, tools), ...anglesFor(face, a, b, tools)]);
  });
  return [...singles, ...pairs];
};

/**
 * The readings, with the instruments that the job has, that shrink the worst 95 % radius of the face most, best first;
 * of two that shrink it alike the one that shrinks all radii more. What they promise is what solving again with the
 * reading gives where it agrees with the rest.
 */
const rankNext = (adjustment: Adjustment, datum: Datum, placed: readonly Placed[]): readonly NextReading[] => {
  const covarianceAt = centreCovariances(adjustment, datum);
  const before = placed.map(covarianceAt);
  const radii = before.map(radiusOf);
  const worst = Math.max(...radii, 0);
  if (worst === 0) return [];
  const ranked = candidates(adjustment, placed, radii).map((reading) => {
    const radiiAfter = after(before, placed, datum, adjustment, rowsOf(adjustment, reading)).map(radiusOf);
    return { reading, radiiAfter, worst: Math.max(...radiiAfter), sum: radiiAfter.reduce((s, r) => s + r * r, 0) };
  });
  const sum = radii.reduce((s, r) => s + r * r, 0);
  const gains = ranked.filter((r) => r.worst < worst * (1 - WORTH) || r.sum < sum * (1 - WORTH) ** 2);
  gains.sort((a, b) => Math.round((1e4 * (a.worst - b.worst)) / worst) || a.sum - b.sum);
  return gains.slice(0, PROPOSED).map(({ reading, radiiAfter }) => ({
    reading: reading.text,
    instrument: reading.instrument,
    reduces: new Map(
      placed.flatMap((p, i): readonly (readonly [string, readonly [number, number]])[] => {
        const [was, is] = [radii[i] ?? 0, radiiAfter[i] ?? 0];
        return was > 0 && is < was * (1 - NAMED) ? [[p.slots.id, [was, is]]] : [];
      }),
    ),
  }));
};

/** Readings proposed to fix what is loose: they stand in the order to take them, one may need another. */
const MOST_TO_FIX = 6;

/**
 * What to measure next: what fixes the loose features soonest, or, where none is loose, what shrinks the worst radius
 * most.
 */
export const nextReadings = (
  adjustment: Adjustment,
  datum: Datum,
  placed: readonly Placed[],
  undetermined: readonly string[],
): readonly NextReading[] => {
  const { network, values } = adjustment;
  const { face, instruments, readings } = network;
  if (undetermined.length === 0) return rankNext(adjustment, datum, placed);
  const places = new Map<string, Point>(
    [...network.unknowns.features].map(([id, s]) => [
      id,
      apply(datum.motion, { x: values[s.x] as number, y: values[s.y] as number }),
    ]),
  );
  return planReadings({ face: { ...face, readings }, instruments }, { places, most: MOST_TO_FIX });
};
