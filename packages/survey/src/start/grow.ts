import { type Point, distance, polar } from '@fayplate/core';
import { isDistance } from '@fayplate/job';
import { type Equations, isSpent } from '../adjust/system.js';
import { type Growth, empty, readyTies, relaxed, withPlaced } from './growth.js';
import { lociOf } from './loci.js';
import { nearestOn } from './locus.js';
import { type Placement, placements } from './place.js';
import { type Sketch, pointOf } from './sketch.js';

/** Samples round a locus that nothing else crosses yet. */
const SAMPLES = 6;

/** Whether another place is about as good as the best: the tie of costs that the clocks or later ties must break. */
const AMBIGUOUS = 25;

/** Rotation that the clocks of the placed features suggest, radians; null where they say nothing. */
const turnOf = (
  sketch: Sketch,
  g: Growth,
): { readonly centre: Point; readonly turn: number; readonly reach: number } | null => {
  if (sketch.centre === null || g.placed[sketch.centre] !== 1) return null;
  const centre = pointOf(sketch, g.x, sketch.centre);
  let c = 0;
  let s = 0;
  let sum = 0;
  let n = 0;
  for (const [f, clock] of sketch.clocks.entries()) {
    if (clock === null || g.placed[f] !== 1) continue;
    const p = pointOf(sketch, g.x, f);
    const d = Math.atan2(p.y - centre.y, p.x - centre.x) - clock;
    c += Math.cos(d);
    s += Math.sin(d);
    sum += distance(p, centre);
    n++;
  }
  return n === 0 ? null : { centre, turn: Math.atan2(s, c), reach: sum / n };
};

/** Places for a feature that too few ties hold: on what locus there is, near its clock position or spread round. */
const guesses = (sketch: Sketch, g: Growth, f: number): readonly Placement[] => {
  const clock = sketch.clocks[f] ?? null;
  const turn = clock === null ? null : turnOf(sketch, g);
  const place = (k: number): Point => pointOf(sketch, g.x, k);
  const locus = readyTies(sketch, g, f).flatMap((tie) => lociOf(tie, f, place, (k) => sketch.radii[k] ?? 0))[0] ?? null;
  const middle = turn?.centre ?? place(Math.max(0, g.placed.indexOf(1)));
  const reach = turn?.reach ?? 50;
  const round =
    clock !== null && turn !== null
      ? [clock + turn.turn]
      : Array.from({ length: SAMPLES }, (_, k) => (2 * Math.PI * (k + 0.25)) / SAMPLES);
  const about = locus?.kind === 'circle' && round.length > 1 ? locus.circle : { centre: middle, radius: reach };
  return round.map((angle) => {
    const v = polar(about.radius, angle);
    const near = { x: about.centre.x + v.x, y: about.centre.y + v.y };
    return { at: locus === null ? near : nearestOn(locus, near), cost: 0, spread: 0.4 * about.radius };
  });
};

/** The next centre to place and where it may go: surest first. */
const choose = (sketch: Sketch, g: Growth): { readonly f: number; readonly options: readonly Placement[] } | null => {
  let best: { f: number; options: readonly Placement[]; key: number } | null = null;
  let fallback = -1;
  let fallbackKey = -1;
  for (let f = 0; f < sketch.slots.length; f++) {
    if (g.placed[f] === 1) continue;
    const ties = g.ready[f] ?? 0;
    const key = ties * 1000 + (sketch.tiesOf[f]?.length ?? 0);
    if (key > fallbackKey) [fallback, fallbackKey] = [f, key];
    if (ties === 0) continue;
    const options = (g.options[f] ??= placements(g, readyTies(sketch, g, f), f));
    const [first, second] = options;
    if (first === undefined) continue;
    const unsure = second !== undefined && second.cost < first.cost + AMBIGUOUS ? 1e3 : 0;
    const bad = first.cost > 40 ? 1e6 : 0;
    const k = unsure + bad + first.spread;
    if (best === null || k < best.key) best = { f, options, key: k };
  }
  if (best !== null) return best;
  return fallback < 0 ? null : { f: fallback, options: guesses(sketch, g, fallback) };
};

/**
 * What it costs to lie in another's metal: two holes are not drilled into each other, though one may lie within the
 * other.
 */
const OVERLAP = 50;

const overlapCost = (g: Growth, f: number, at: Point): number => {
  const own = g.sketch.radii[f] ?? 0;
  let sum = 0;
  for (const [k, radius] of g.sketch.radii.entries()) {
    if (g.placed[k] !== 1) continue;
    const d = distance(pointOf(g.sketch, g.x, k), at);
    if (d < 0.8 * (own + radius) && d > 1.2 * Math.abs(own - radius)) sum += OVERLAP;
    else if (d < 0.8 * (own + radius) && Math.max(own, radius) < 2 * Math.min(own, radius)) sum += OVERLAP;
  }
  return sum;
};

const children = (sketch: Sketch, g: Growth, clocked: boolean): readonly Growth[] => {
  const next = choose(sketch, g);
  if (next === null) return [g];
  const base = next.options[0]?.cost ?? 0;
  const all = next.options.filter((o) => o.cost < base + AMBIGUOUS * 2 || next.options.length === 1);
  // While everything lies on one line its two mirror images are one arrangement; only clocks make them two.
  const offLine = (p: Placement): boolean => Math.abs(p.at.y) > Math.max(3 * p.spread, 1e-3);
  const twins = g.straight && !clocked ? all.filter((o) => o.at.y >= 0 || !offLine(o)) : all;
  return (twins.length > 0 ? twins : all).map((o) =>
    withPlaced(sketch, g, next.f, { ...o, cost: o.cost + overlapCost(g, next.f, o.at) }, g.straight && !offLine(o)),
  );
};

/** Lengths between two centres to begin from: those first whose ends share most neighbours, then the longest. */
export const seedsOf = (sketch: Sketch): readonly (readonly [number, number, number])[] => {
  const scored = sketch.ties.flatMap((tie) => {
    const [a, b] = tie.of;
    if (a === undefined || b === undefined || a === b || !isDistance(tie.reading.kind)) return [];
    const locus = lociOf(
      tie,
      b,
      () => ({ x: 0, y: 0 }),
      (f) => sketch.radii[f] ?? 0,
    )[0];
    if (locus?.kind !== 'circle' || locus.circle.radius <= 0) return [];
    const met = new Set(sketch.tiesOf[a]?.flatMap((t) => sketch.ties[t]?.ends ?? []));
    const shared = new Set(sketch.tiesOf[b]?.flatMap((t) => sketch.ties[t]?.ends ?? []).filter((f) => met.has(f))).size;
    return [{ pair: [a, b, locus.circle.radius] as const, shared, length: locus.circle.radius }];
  });
  scored.sort((p, q) => q.shared - p.shared || q.length - p.length);
  return scored.map((s) => s.pair);
};

const byCost = (p: Growth, q: Growth): number => p.cost + p.clock - q.cost - q.clock;

/** An arrangement with one centre more is copied and looked through: so many products for each feature. */
const CHILD = 40;

/** Everything is adjusted when so many centres stand, and again whenever they have grown by this factor. */
const RELAX = { first: 6, growth: 1.4 } as const;

/**
 * Arrangements grown from a seed by intersecting what the readings say, several kept side by side where a centre may
 * lie in more places than one; best first. `seed` counts through the possible seeds; with bench readings there is one,
 * the bench itself.
 */
export const grow = (sketch: Sketch, equations: Equations, seed: number, breadth: number): readonly Float64Array[] => {
  const clocked = sketch.clocks.filter((c) => c !== null).length >= 3;
  let front: readonly Growth[] = [empty(sketch)];
  if (!sketch.network.bench) {
    const seeds = seedsOf(sketch);
    const [a, b, length] = seeds[seed % Math.max(seeds.length, 1)] ?? [0, Math.min(1, sketch.slots.length - 1), 50];
    const pinned = (x: number): Placement => ({ at: { x, y: 0 }, cost: 0, spread: 0.02 });
    front = front.map((g) => withPlaced(sketch, g, a, pinned(0), true));
    if (a !== b) front = front.map((g) => withPlaced(sketch, g, b, pinned(length), true));
  } else {
    front = front.map((g) => ({ ...g, straight: false }));
  }
  let next: number = RELAX.first;
  for (let turn = 0; turn < sketch.slots.length; turn++) {
    const pool = front.flatMap((g) => children(sketch, g, clocked));
    pool.sort(byCost);
    equations.meter.spent += (front.length + pool.length) * CHILD * sketch.slots.length;
    const spent = isSpent(equations.meter);
    front = pool.slice(0, spent ? 1 : breadth);
    if (turn < next || spent) continue;
    front = front.map((g) => relaxed(equations, g)).sort(byCost);
    next = Math.ceil(turn * RELAX.growth);
  }
  return front.map((g) => g.x);
};
