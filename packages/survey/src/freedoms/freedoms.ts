import { formatClock, sayAll } from '@fayplate/core';
import type { Adjustment } from '../adjust/adjustment.js';
import { bodiesOf } from '../frame/bodies.js';
import type { Datum } from '../frame/datum.js';
import { sizeOf } from '../frame/located.js';
import type { Placed } from '../frame/placed.js';
import type { Network } from '../network/network.js';
import type { FeatureSlots } from '../network/unknowns.js';
import { type Twist, independent, onlySizeLoose, twistOf, velocityAt, without } from './stretch.js';

/**
 * Rigid bodies that share no feature, the largest first; a feature of two bodies stays with the larger, the rest are
 * single.
 */
const partition = (adjustment: Adjustment, features: readonly FeatureSlots[]): readonly (readonly FeatureSlots[])[] => {
  const taken = new Set<string>();
  const out: FeatureSlots[][] = [];
  for (const body of bodiesOf(adjustment)) {
    const free = features.filter((f) => body.includes(f.id) && !taken.has(f.id));
    if (free.length < 2 && out.length > 0) continue;
    for (const f of free) taken.add(f.id);
    out.push(free);
  }
  return [...out, ...features.filter((f) => !taken.has(f.id)).map((f) => [f])];
};

/**
 * What the readings do not fix, in plain words, from the motions that change no reading: each rigid body against the
 * largest one. Empty where all is fixed.
 */
export const freedomsOf = (adjustment: Adjustment, datum: Datum, unread: readonly string[]): readonly string[] => {
  const { network, values, nullSpace } = adjustment;
  const features = [...network.unknowns.features.values()];
  const words: string[] = unread.map((id) => `No reading says where ${id} is.`);
  const sizes = features
    .filter((f) => (f.radius !== null || f.exactRadius !== null) && sizeOf(adjustment, f).radius === null)
    .map((f) => `The diameter of ${f.id} is not fixed: measure it, or state it.`);
  if (onlySizeLoose(features, values, nullSpace))
    return [...words, 'The readings fix the shape but not its size: take one length.', ...sizes];
  const [main, ...others] = partition(adjustment, features);
  if (main === undefined || nullSpace.length === 0) return [...words, ...sizes];
  const reach = Math.max(
    ...features.map((f) =>
      Math.hypot(
        (values[f.x] as number) - (values[main[0]?.x ?? 0] as number),
        (values[f.y] as number) - (values[main[0]?.y ?? 0] as number),
      ),
    ),
    1e-9,
  );
  const mainTwists = nullSpace.map((v) => twistOf(main, values, v));
  for (const body of others) {
    const relative = nullSpace.map((v, k) =>
      without(twistOf(body, values, v), mainTwists[k] ?? { x: 0, y: 0, turn: 0 }),
    );
    const lone = body.length === 1;
    const loose = lone
      ? independent(
          relative.map((t) => pointMotion(t, body[0], values)),
          reach,
        )
      : independent(relative, reach);
    if (loose.length === 0) continue;
    words.push(bodyWords(adjustment, datum, body, loose, main));
  }
  return [...words, ...sizes];
};

/** A single feature only shifts: its own rotation means nothing. */
const pointMotion = (t: Twist, f: FeatureSlots | undefined, values: Float64Array): Twist => {
  const [x, y] = f === undefined ? [0, 0] : velocityAt(t, values[f.x] as number, values[f.y] as number);
  return { x, y, turn: 0 };
};

const bodyWords = (
  adjustment: Adjustment,
  datum: Datum,
  body: readonly FeatureSlots[],
  loose: readonly Twist[],
  main: readonly FeatureSlots[],
): string => {
  const { network, values } = adjustment;
  const names = sayAll(body.map((f) => f.id));
  const [first] = loose;
  const lone = body.length === 1;
  if (first === undefined || loose.length > 1) {
    const rest = main.length === 1 ? (main[0]?.id ?? '') : 'the rest';
    return lone
      ? `${names} can still be anywhere about ${rest}: too few readings reach it.`
      : `${names} hold together, but can still shift against ${rest}.`;
  }
  const own = new Set(body.map((f) => f.id));
  const partners = new Set(
    network.readings.filter((r) => r.features.some((id) => own.has(id))).flatMap((r) => r.features),
  );
  const pivots = [...network.unknowns.features.values()].filter(
    (f) => partners.has(f.id) && (lone ? !own.has(f.id) : true),
  );
  const pivot = pivots.find((f) => turnsAbout(first, f, body, values));
  const say = lone ? names : `${names}, held together,`;
  if (pivot !== undefined) return `${say} can still swing about ${pivot.id}.`;
  const [f] = body;
  const [vx, vy] = f === undefined ? [0, 0] : velocityAt(first, values[f.x] as number, values[f.y] as number);
  const heading = Math.atan2(vy, vx) + datum.motion.turn;
  return `${say} can still shift toward ${formatClock(heading)} o'clock and back.`;
};

/** Whether every feature of the body moves square to its line to `pivot`. */
const turnsAbout = (t: Twist, pivot: FeatureSlots, body: readonly FeatureSlots[], values: Float64Array): boolean => {
  const px = values[pivot.x] as number;
  const py = values[pivot.y] as number;
  if (body.length > 1) {
    const [vx, vy] = velocityAt(t, px, py);
    const most = Math.max(
      ...body.map((f) => Math.hypot(...velocityAt(t, values[f.x] as number, values[f.y] as number))),
    );
    return Math.hypot(vx, vy) <= 1e-4 * most;
  }
  return body.every((f) => {
    const dx = (values[f.x] as number) - px;
    const dy = (values[f.y] as number) - py;
    const [vx, vy] = velocityAt(t, values[f.x] as number, values[f.y] as number);
    return Math.abs(dx * vx + dy * vy) <= 1e-4 * Math.hypot(dx, dy) * Math.hypot(vx, vy) && Math.hypot(dx, dy) > 0;
  });
};

/** Features that no reading touches, vacant places left out. */
export const unreadOf = (network: Network): readonly string[] =>
  network.face.features
    .filter((f) => !network.unknowns.features.has(f.id) && f.kind !== 'edge' && !f.vacant)
    .map((f) => f.id);

/** Features that the readings do not fix, in the order of the face. */
export const undeterminedOf = (network: Network, placed: readonly Placed[]): readonly string[] => {
  const fixed = new Set(placed.map((p) => p.slots.id));
  const loose = new Set([
    ...unreadOf(network),
    ...[...network.unknowns.features.keys()].filter((id) => !fixed.has(id)),
  ]);
  return network.face.features.filter((f) => loose.has(f.id)).map((f) => f.id);
};

/** Only the face as a whole can move, and every size is known: there is nothing to say. */
export const nothingLoose = (adjustment: Adjustment, placed: readonly Placed[]): boolean =>
  unreadOf(adjustment.network).length === 0 &&
  placed.length === adjustment.network.unknowns.features.size &&
  placed.every(({ slots }) => slots.radius === null || sizeOf(adjustment, slots).radius !== null);
