import {
  DEGREE,
  type Point,
  type Random,
  distance,
  distanceFromLine,
  polar,
  randomFrom,
  subtract,
  wrapAngle,
} from '@fayplate/core';
import type { Face, Feature, Instrument, Reading, ReadingKind } from '@fayplate/job';
import { type Network, networkOf } from '../../src/network/network.js';
import { isGloballyRigid } from './global.js';
import { rankAt } from './rank.js';

/** A simulated shop: a face whose truth is known, and readings taken off it with the errors of their instruments. */
export interface Shop {
  readonly face: Face;
  readonly instruments: ReadonlyMap<string, Instrument>;
  readonly network: Network;
  /** The vector of unknowns at the truth. */
  readonly truth: Float64Array;
  readonly family: Family;
}

export const families = [
  'ring',
  'random pairs',
  'neighbours',
  'built up',
  'mixed kinds',
  'bench',
  'bench and jaws',
] as const;
export type Family = (typeof families)[number];
export type Clocks = 'none' | 'loose' | 'right';

const instrument = (name: string, each: number, measures: 'length' | 'angle' = 'length'): Instrument => ({
  name,
  measures,
  each,
  zero: null,
});
const instruments = new Map(
  [
    instrument('caliper', 0.05),
    instrument('rule', 0.4),
    instrument('protractor', 0.5 * DEGREE, 'angle'),
    instrument('finder', 0.03),
  ].map((i) => [i.name, i]),
);
const takenBy: Readonly<Partial<Record<ReadingKind, string>>> = {
  centres: 'rule',
  angle: 'protractor',
  offset: 'rule',
  at: 'finder',
  touch: 'finder',
};

/** Rounds of readings to near features, before any two are measured. */
const NEAR_ROUNDS = 200;

/** Least distance between centres, mm: holes are not drilled into each other. */
const APART = 14;
/** Least distance from the middle, where a spigot may stand. */
const CENTRE = 38;

interface Round {
  readonly id: string;
  readonly p: Point;
  readonly r: number;
}

const scatter = (random: Random, count: number, family: Family): readonly Point[] => {
  const size = 60 + 12 * Math.sqrt(count) * (1 + random.uniform());
  if (family === 'ring') {
    return Array.from({ length: count }, (_, k) =>
      polar(size * (0.98 + 0.04 * random.uniform()), (2 * Math.PI * (k + 0.3 * random.uniform())) / count),
    );
  }
  const out: Point[] = [];
  let room = size;
  while (out.length < count) {
    const p = { x: (2 * random.uniform() - 1) * room, y: (2 * random.uniform() - 1) * room * 0.7 };
    if (Math.hypot(p.x, p.y) > CENTRE && out.every((q) => distance(p, q) > APART)) out.push(p);
    else room *= 1.002;
  }
  return out;
};

/** What a faultless reading would be. */
const exact = (kind: ReadingKind, [a, b, c]: readonly Round[]): number => {
  if (a === undefined || b === undefined) return 0;
  const d = distance(a.p, b.p);
  if (kind === 'over') return d + a.r + b.r;
  if (kind === 'between') return d - a.r - b.r;
  if (kind === 'step') return d - a.r + b.r;
  if (kind === 'centres' || c === undefined) return d;
  if (kind === 'offset') return Math.abs(distanceFromLine(a.p, b.p, c.p));
  const [s, t] = [subtract(a.p, b.p), subtract(c.p, b.p)];
  return Math.abs(wrapAngle(Math.atan2(t.y, t.x) - Math.atan2(s.y, s.x)));
};

export interface ShopOptions {
  readonly family?: Family;
  readonly count?: number;
  readonly clocks?: Clocks;
  /** The readings only hold every feature fast where it is; other shapes may fit them as well. */
  readonly onlyRigid?: boolean;
}

/** A random shop with from 3 to 60 holes whose readings fix the shape; the seed is all of it. */
export const shop = (seed: number, options: ShopOptions = {}): Shop => {
  const random = randomFrom(seed);
  // Seeds that are neighbours begin alike.
  for (let k = 0; k < 20; k++) random.uniform();
  const family = options.family ?? families[random.below(families.length)] ?? 'ring';
  const count = options.count ?? 3 + Math.floor(58 * random.uniform() ** 1.5);
  const clocks = options.clocks ?? (['none', 'loose', 'loose', 'right'] as const)[random.below(4)] ?? 'none';
  const truth: Round[] = scatter(random, count, family).map((p, i) => ({
    id: `P${i + 1}`,
    p,
    r: 3 + 2 * random.uniform(),
  }));
  const withCentre = family === 'ring' || random.uniform() < 0.5;
  if (withCentre) truth.push({ id: 'C', p: { x: 0, y: 0 }, r: 25 + 5 * random.uniform() });
  const turn = 2 * Math.PI * random.uniform();
  const byId = new Map(truth.map((t) => [t.id, t]));
  const n = truth.length;
  const id = (i: number): string => truth[i]?.id ?? '';

  const features = truth.map(({ id, p, r }): Feature => {
    const off = clocks === 'loose' ? 40 * DEGREE * (2 * random.uniform() - 1) : 0;
    const clock = clocks === 'none' || id === 'C' ? null : wrapAngle(Math.atan2(p.y, p.x) + turn + off);
    const diameter = { value: 2 * r + 0.02 * random.normal(), plusMinus: 0.04 };
    return {
      id,
      kind: id === 'C' ? 'spigot' : 'stud',
      diameter,
      diameterFrom: 'job',
      thread: null,
      clock,
      vacant: false,
      stands: null,
      deep: null,
      lean: null,
      height: null,
    };
  });

  const onBench = (p: Point, noise = 0.015): Point => ({
    x: 37 + Math.cos(turn) * p.x - Math.sin(turn) * p.y + noise * random.normal(),
    y: -12 + Math.sin(turn) * p.x + Math.cos(turn) * p.y + noise * random.normal(),
  });
  const readings: Reading[] = [];
  const take = (kind: ReadingKind, ids: readonly string[], point: Point | null = null): void => {
    const tool = takenBy[kind] ?? 'caliper';
    const plusMinus = instruments.get(tool)?.each ?? 0.05;
    const read =
      exact(
        kind,
        ids.flatMap((i) => byId.get(i) ?? []),
      ) +
      (plusMinus / 2) * random.normal();
    const value = point === null ? Math.max(0, kind === 'angle' ? Math.min(read, Math.PI) : read) : 0;
    readings.push({
      id: String(readings.length + 1),
      text: `${kind} ${ids.join(' ')}`,
      kind,
      features: ids,
      value,
      point,
      plusMinus,
      instrument: tool,
      aside: false,
      note: null,
      unit: kind === 'angle' ? null : 'mm',
      place: { line: 1, column: 1 },
    });
  };
  const seen = new Set<string>();
  const pair = (i: number, j: number): void => {
    const [a, b] = [id(Math.min(i, j)), id(Math.max(i, j))];
    if (a === b || seen.has(`${a} ${b}`)) return;
    seen.add(`${a} ${b}`);
    const kinds: readonly ReadingKind[] = b === 'C' ? ['between'] : ['over', 'between', 'step', 'over', 'centres'];
    take(kinds[random.below(kinds.length)] ?? 'over', [a, b]);
  };
  const near = (i: number): readonly number[] =>
    truth
      .map((t, j) => [distance(t.p, truth[i]?.p ?? t.p), j] as const)
      .sort((a, b) => a[0] - b[0])
      .slice(1)
      .map(([, j]) => j);
  const nearOne = (i: number, most: number): number => near(i)[random.below(Math.min(most, n - 1))] ?? 0;
  const touch = (i: number, times: number): void => {
    const t = truth[i];
    if (t === undefined) return;
    const first = 2 * Math.PI * random.uniform();
    for (let k = 0; k < times; k++) {
      const rim = polar(t.r, first + (2 * Math.PI * (k + 0.2 * random.uniform())) / times);
      take('touch', [t.id], onBench({ x: t.p.x + rim.x, y: t.p.y + rim.y }));
    }
  };
  const mixed = (): void => {
    const [i, j, k] = [random.below(n), random.below(n), random.below(n)];
    const close = nearOne(i, 6);
    const kind = random.below(5);
    if (kind > 1) pair(i, kind === 2 ? j : close);
    else if (new Set([i, close, k]).size === 3) take(kind === 0 ? 'angle' : 'offset', [id(i), id(close), id(k)]);
  };
  const another = (): void => {
    const i = random.below(n);
    if (n <= 4 && family !== 'bench' && random.uniform() < 0.2) take('angle', [id(0), id(1), id(2)]);
    else if (family === 'random pairs' || family === 'built up') pair(i, random.below(n));
    else if (family === 'mixed kinds') mixed();
    else if (family === 'bench' || (family === 'bench and jaws' && random.uniform() < 0.1)) touch(i, 1);
    else pair(i, nearOne(i, 8));
  };

  /** One more reading, mostly of a feature that has the fewest. */
  const check = (): void => {
    const counts = truth.map((t) => readings.filter((r) => r.features.includes(t.id)).length + random.uniform());
    const i = random.uniform() < 0.1 ? random.below(n) : counts.indexOf(Math.min(...counts));
    if (family === 'bench') touch(i, 1);
    else if (family === 'bench and jaws' && random.uniform() < 0.1) touch(i, 3);
    else pair(i, family === 'random pairs' || family === 'built up' ? random.below(n) : nearOne(i, 8));
  };

  if (family === 'ring') {
    for (let i = 0; i < count; i++) {
      if (random.uniform() < 0.8) pair(i, n - 1);
      pair(i, (i + 1) % count);
      if (random.uniform() < 0.6) pair(i, (i + 2) % count);
    }
  }
  if (family === 'neighbours') for (let i = 0; i < n; i++) for (const j of near(i).slice(0, 3)) pair(i, j);
  if (family === 'built up')
    for (let i = 1; i < n; i++) for (let k = 0; k < 2 + random.below(2); k++) pair(i, random.below(i));
  if (family === 'bench') {
    for (const [i, t] of truth.entries()) {
      if (random.uniform() < 0.4) take('at', [t.id], onBench(t.p));
      else touch(i, 2 + random.below(3));
    }
  }
  if (family === 'bench and jaws') for (let i = 0; i < n; i += 3) touch(i, 3);

  const faceNow = (): Face => ({
    name: 'shop',
    viewed: 'from outside',
    centre: withCentre ? 'C' : null,
    up: null,
    across: null,
    features,
    readings: [...readings],
    layout: { kind: 'measured' },
    flange: null,
    shaft: null,
    shaftSizes: null,
    rim: [],
    standard: null,
  });
  const truthIn = (network: Network): Float64Array => {
    const x = new Float64Array(network.unknowns.count);
    for (const t of truth) {
      const s = network.unknowns.features.get(t.id);
      if (s === undefined) continue;
      const p = network.bench ? onBench(t.p, 0) : t.p;
      x[s.x] = p.x;
      x[s.y] = p.y;
      if (s.radius !== null) x[s.radius] = t.r;
    }
    return x;
  };
  const fixed = (): boolean => {
    const network = networkOf({ face: faceNow(), instruments });
    return (
      network.unknowns.features.size === n &&
      rankAt(network, truthIn(network)) === network.unknowns.count - (network.bench ? 0 : 3)
    );
  };
  while (!fixed()) for (let k = 0; k <= n >> 5; k++) another();
  if (options.onlyRigid !== true) {
    for (let round = 0; !isGloballyRigid(networkOf({ face: faceNow(), instruments })); round++) {
      // Readings to near features alone cannot fix every face.
      for (let k = 0; k <= n >> 5; k++) {
        if (round < NEAR_ROUNDS) check();
        else pair(random.below(n), random.below(n));
      }
    }
  }
  const spare = Math.floor(random.uniform() ** 2 * n);
  for (let k = 0; k < spare; k++) another();
  const face = faceNow();
  const network = networkOf({ face, instruments });
  return { face, instruments, network, truth: truthIn(network), family };
};
