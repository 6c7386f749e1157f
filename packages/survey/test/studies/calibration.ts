import { type Point, chiSquareQuantile, distance, intersectCircles, polar, randomFrom } from '@fayplate/core';
import { locateFace } from '../../src/index.js';
import { adjust } from '../../src/adjust/adjust.js';
import { centreCovariances } from '../../src/frame/covariance.js';
import { datumOf } from '../../src/frame/datum.js';
import { inDatum } from '../../src/frame/placed.js';
import { networkOf } from '../../src/network/network.js';
import { type Shop, ringShop } from '../shops.js';
import { type Truth, simulate, truthVector } from '../simulate.js';

/** What a run of simulated shops says of the ± that `locateFace` gives. */
export interface Calibration {
  readonly shops: number;
  readonly ellipses: number;
  /** Share of the 95 % ellipses (intervals, for the feature on the frame's axis) that hold the truth. */
  readonly held: number;
  /** RMS error of all centres over the root mean Cramér–Rao bound at the truth. */
  readonly overBound: number;
  /** Standard error of `overBound`, from the spread between shops. */
  readonly standardError: number;
  /** The same ratio for a drawing by hand. */
  readonly byHand: number;
  readonly unsolved: number;
}

/**
 * The face's frame at the truth itself: where each feature is, and the least covariance that any unbiased estimate can
 * have there.
 */
const atTruth = (shop: Shop) => {
  const network = networkOf(shop.template);
  const x = truthVector(network, shop.truth);
  const read = network.observations.map((o) => o.model(x));
  const exact = { ...network, observations: network.observations.map((o, i) => ({ ...o, value: read[i] ?? 0 })) };
  const a = adjust(exact, x);
  const datum = datumOf(network.face, network.unknowns, x, []);
  const covarianceAt = centreCovariances(a, datum);
  return [...network.unknowns.features.values()].map((slots) => {
    const placed = inDatum(datum, x, slots);
    return { id: slots.id, point: placed.point, bound: covarianceAt(placed) };
  });
};

const toSixteenthOfHalf = (mm: number): number => Math.round(mm / (25.4 / 32)) * (25.4 / 32);

/**
 * The drawing-board way: the spigot, the first stud straight above it, then each next stud where the circle about the
 * spigot crosses the circle about the stud before it, from the fewest readings, each set on the compass to 1/32 in.
 */
export const drawnByHand = (
  readings: ReadonlyMap<string, number>,
  truth: Truth,
  count: number,
): ReadonlyMap<string, Point> => {
  const compass = (a: string, b: string): number => toSixteenthOfHalf(readings.get(`${a} ${b}`) ?? 0);
  const drawn = new Map<string, Point>([
    ['S', { x: 0, y: 0 }],
    ['P1', { x: 0, y: compass('P1', 'S') }],
  ]);
  for (let i = 2; i <= count; i++) {
    const [before, here] = [`P${i - 1}`, `P${i}`];
    const last = drawn.get(before) ?? { x: 0, y: 0 };
    const out = compass(here, 'S');
    const crossing = intersectCircles(
      { centre: { x: 0, y: 0 }, radius: out },
      { centre: last, radius: compass(before, here) },
    );
    const t = truth.get(here) ?? { x: 0, y: 0 };
    const [a, b] = crossing ?? [polar(out, Math.atan2(t.y, t.x)), polar(out, Math.atan2(t.y, t.x))];
    drawn.set(here, distance(a, t) < distance(b, t) ? a : b);
  }
  return drawn;
};

/** `shops` simulated rings of 3 to 16 studs, seeds from `seed` on. */
export const calibrate = (shops: number, seed: number): Calibration => {
  let ellipses = 0;
  let held = 0;
  let unsolved = 0;
  let hand = 0;
  const ratios: { readonly error: number; readonly bound: number }[] = [];
  for (let k = 0; k < shops; k++) {
    const random = randomFrom(seed + k);
    const count = 3 + random.below(14);
    const shop = ringShop(count, random);
    const { survey, start } = simulate(shop.template, shop.truth, random);
    const truth = atTruth(shop);
    const located = locateFace(survey, { next: false });
    if (!located.stopped.converged || located.undetermined.length > 0) {
      unsolved++;
      continue;
    }
    let error = 0;
    let bound = 0;
    for (const t of truth) {
      const f = located.features.get(t.id);
      if (f === undefined || t.id === 'S') continue;
      const dx = f.x - t.point.x;
      const dy = f.y - t.point.y;
      const [[xx, xy], [, yy]] = f.covariance;
      const level =
        t.id === 'P1'
          ? (dy * dy) / yy / chiSquareQuantile(0.95, 1)
          : (dx * dx * yy - 2 * dx * dy * xy + dy * dy * xx) / (xx * yy - xy * xy) / chiSquareQuantile(0.95, 2);
      ellipses++;
      if (level <= 1) held++;
      error += dx * dx + dy * dy;
      bound += t.bound[0][0] + t.bound[1][1];
    }
    ratios.push({ error, bound });
    hand += handError(shop, start, truth, count);
  }
  const total = ratios.reduce((s, r) => s + r.bound, 0);
  const square = ratios.reduce((s, r) => s + r.error, 0) / total;
  // Ratio of sums: its standard error from the residuals error − square·bound; halved for the root.
  const spread = Math.sqrt(ratios.reduce((s, r) => s + (r.error - square * r.bound) ** 2, 0)) / total;
  return {
    shops,
    ellipses,
    held: held / ellipses,
    overBound: Math.sqrt(square),
    standardError: spread / (2 * Math.sqrt(square)),
    byHand: Math.sqrt(hand / total),
    unsolved,
  };
};

/**
 * Squared error of the hand drawing over all studs, from centre distances with the same errors as a `between` and an
 * `over` would have.
 */
const handError = (shop: Shop, start: Float64Array, truth: ReturnType<typeof atTruth>, count: number): number => {
  const network = networkOf(shop.template);
  const place = (id: string): Point => {
    const s = network.unknowns.features.get(id);
    return { x: start[s?.x ?? 0] ?? 0, y: start[s?.y ?? 0] ?? 0 };
  };
  const sigma = network.observations[0]?.sigma ?? 0;
  const random = randomFrom(count);
  const readings = new Map<string, number>();
  for (let i = 1; i <= count; i++) {
    readings.set(`P${i} S`, distance(place(`P${i}`), place('S')) + sigma * random.normal());
    if (i > 1) readings.set(`P${i - 1} P${i}`, distance(place(`P${i - 1}`), place(`P${i}`)) + sigma * random.normal());
  }
  const drawn = drawnByHand(readings, new Map(truth.map((t) => [t.id, { ...t.point, r: 0 }])), count);
  return truth.reduce((s, t) => s + (t.id === 'S' ? 0 : distance(drawn.get(t.id) ?? t.point, t.point) ** 2), 0);
};
