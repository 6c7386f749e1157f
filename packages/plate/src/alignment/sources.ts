import { type Point, type Random, distance } from '@fayplate/core';
import { covarianceRoot } from '../assembly/chance.js';
import { mostClearance } from '../assembly/pose.js';
import type { Joint, LocatedShaft } from '../types.js';

/** One cause of offset: the surface that makes it, how far it can put the shaft out, and a draw of how far it does. */
export interface Source {
  readonly says: string;
  readonly worst: number;
  readonly draw: (random: Random) => Point;
}

type Rows = readonly [readonly number[], readonly number[]];

/**
 * Anywhere in a disc, evenly, carried to the shaft by a 2 × 2 matrix; the worst is the disc's radius times the most
 * that it stretches.
 */
const disc = (says: string, radius: number, [[a = 0, b = 0], [c = 0, d = 0]]: Rows): Source => ({
  says,
  worst: (radius * (Math.hypot(a + d, c - b) + Math.hypot(a - d, c + b))) / 2,
  draw: (random) => {
    const r = radius * Math.sqrt(random.uniform());
    const t = 2 * Math.PI * random.uniform();
    const x = r * Math.cos(t);
    const y = r * Math.sin(t);
    return { x: a * x + b * y, y: c * x + d * y };
  },
});

/** Evenly between − and + along a direction of that length. */
const along = (says: string, reach: Point): Source => ({
  says,
  worst: Math.hypot(reach.x, reach.y),
  draw: (random) => {
    const k = 2 * random.uniform() - 1;
    return { x: k * reach.x, y: k * reach.y };
  },
});

/**
 * Normal errors of many places carried to the shaft by two rows. The worst is two standard deviations both ways at
 * once: 2 √trace.
 */
const normal = (says: string, rows: Rows, covariance: readonly (readonly number[])[]): Source => {
  const at = (i: 0 | 1, j: 0 | 1): number =>
    rows[i].reduce((sum, p, k) => sum + rows[j].reduce((s, q, l) => s + p * (covariance[k]?.[l] ?? 0) * q, 0), 0);
  const root = covarianceRoot([
    [at(0, 0), at(0, 1)],
    [at(1, 0), at(1, 1)],
  ]);
  const [xx = 0, , yx = 0, yy = 0] = root;
  return {
    says,
    worst: 2 * Math.sqrt(Math.max(0, at(0, 0) + at(1, 1))),
    draw: (random) => {
      const u = random.normal();
      const v = random.normal();
      return { x: xx * u, y: yx * u + yy * v };
    },
  };
};

const still: Rows = [
  [1, 0],
  [0, 1],
];

/**
 * Farthest that the fasteners let the part turn about a point, radians: the first to touch its hole, with the play of
 * both.
 */
const freeTurn = (fasteners: readonly Joint[], about: Joint): number =>
  Math.min(
    ...fasteners.map((f) => (mostClearance(f) + mostClearance(about)) / Math.max(distance(f.part, about.part), 1e-9)),
    Math.PI,
  );

const byRegister = (s: LocatedShaft, register: Joint): readonly Source[] => {
  const n = s.joints.length;
  const at = s.joints.indexOf(register);
  const arm = { x: s.shaft.x - register.part.x, y: s.shaft.y - register.part.y };
  const relative = (axis: 0 | 1): readonly number[] =>
    Array.from({ length: 2 * (n + 1) }, (_, k) => (k === 2 * n + axis ? 1 : k === 2 * at + axis ? -1 : 0));
  const turn = freeTurn(
    // A dowel beside the register stops it as well.
    s.joints.filter((j) => j !== register),
    register,
  );
  return [
    disc(`play of ${s.face}.${register.id} in its register`, mostClearance(register), still),
    ...(s.feature === register.id
      ? []
      : [
          normal(
            `where ${s.feature === null ? `the origin of ${s.face}` : `${s.face}.${s.feature}`} lies from ` +
              `${s.face}.${register.id}, as measured`,
            [relative(0), relative(1)],
            s.covariance,
          ),
        ]),
    ...(Math.hypot(arm.x, arm.y) < 1e-9
      ? []
      : [along(`turn of ${s.face} about its register within the bolts' play`, { x: -turn * arm.y, y: turn * arm.x })]),
  ];
};

/**
 * Two dowels: the first holds the part in place, the second keeps it from turning, by what lies across the line between
 * them. The shaft moves by e₁ + ((e₂ − e₁)·n / L) J arm, with n across that line, L its length and the arm from the
 * first dowel.
 */
const byDowels = (s: LocatedShaft, first: Joint, second: Joint): readonly Source[] => {
  const n = s.joints.length;
  const i = s.joints.indexOf(first);
  const j = s.joints.indexOf(second);
  const length = Math.max(distance(first.part, second.part), 1e-9);
  const across = { x: -(second.part.y - first.part.y) / length, y: (second.part.x - first.part.x) / length };
  const lever = { x: -(s.shaft.y - first.part.y) / length, y: (s.shaft.x - first.part.x) / length };
  const fromFirst: Rows = [
    [1 - lever.x * across.x, -lever.x * across.y],
    [-lever.y * across.x, 1 - lever.y * across.y],
  ];
  const fromSecond: Rows = [
    [lever.x * across.x, lever.x * across.y],
    [lever.y * across.x, lever.y * across.y],
  ];
  const places =
    (shaft: 0 | 1) =>
    (axis: 0 | 1): readonly number[] =>
      Array.from({ length: 2 * (n + 1) }, (_, k) => {
        const own = k === 2 * n + axis ? shaft : 0;
        const one = k === 2 * i || k === 2 * i + 1 ? (fromFirst[axis][k - 2 * i] ?? 0) : 0;
        const two = k === 2 * j || k === 2 * j + 1 ? (fromSecond[axis][k - 2 * j] ?? 0) : 0;
        return own - one - two;
      });
  const made = Array.from({ length: 2 * (n + 1) }, (_, r) =>
    Array.from({ length: 2 * (n + 1) }, (__, c) => (r === c ? ((s.joints[Math.floor(r / 2)]?.made ?? 0) / 2) ** 2 : 0)),
  );
  const pins = `${s.face}.${first.id} and ${second.id}`;
  return [
    disc(`play of ${s.face}.${first.id} in its hole`, mostClearance(first), fromFirst),
    along(`play of ${s.face}.${second.id} in its hole, which lets ${s.face} turn`, {
      x: mostClearance(second) * lever.x,
      y: mostClearance(second) * lever.y,
    }),
    normal(`where the shaft lies from ${pins}, as measured`, [places(1)(0), places(1)(1)], s.covariance),
    normal(`where the plate's holes for ${pins} are made`, [places(0)(0), places(0)(1)], made),
  ];
};

/**
 * How far bolts alone let the shaft come: about their own play where it lies among them, more the farther off it lies,
 * for the part can turn as well. A small motion moves the shaft by Σ wᵢ eᵢ, eᵢ what it moves bolt i by, for any
 * weights, complex ones too, with Σ wᵢ = 1 and Σ wᵢ pᵢ = the shaft; so by no more than Σ |wᵢ| times their clearances:
 * here two bolts alone, or all alike and what is left over carried by two. Null where one bolt lets it swing.
 */
const playOfBolts = (bolts: readonly Joint[], shaft: Point): number | null => {
  const n = bolts.length;
  const mean = (of: (b: Joint) => number): number => bolts.reduce((sum, b) => sum + of(b), 0) / n;
  const off = distance({ x: mean((b) => b.part.x), y: mean((b) => b.part.y) }, shaft);
  const pairs = bolts
    .flatMap((a, i) => bolts.slice(i + 1).map((b) => [a, b, distance(a.part, b.part)] as const))
    .filter(([, , length]) => length > 1e-6);
  const two = pairs.map(
    ([a, b, length]) =>
      (mostClearance(a) * distance(shaft, b.part) + mostClearance(b) * distance(shaft, a.part)) / length,
  );
  const carried =
    off < 1e-6 ? 0 : Math.min(...pairs.map(([a, b, length]) => (off * (mostClearance(a) + mostClearance(b))) / length));
  const least = Math.max(0, Math.min(mean(mostClearance) + carried, ...two));
  return Number.isFinite(least) ? least : null;
};

/**
 * How far the shaft may lie from where its bolts put it, as measured and as their holes are made: two standard
 * deviations both ways at once, mm.
 */
export const amongBolts = (s: LocatedShaft): number => {
  const bolts = s.joints.filter((j) => j.role === 'fastener');
  const made = bolts.reduce((sum, j) => sum + (j.made / 2) ** 2, 0) / Math.max(1, bolts.length) ** 2;
  return Math.hypot(measuredAmong(s).worst, 2 * Math.sqrt(2 * made));
};

const measuredAmong = (s: LocatedShaft): Source => {
  const n = s.joints.length;
  const bolts = s.joints.flatMap((j, i) => (j.role === 'fastener' ? [i] : []));
  const fromBolts = (axis: 0 | 1): readonly number[] =>
    Array.from({ length: 2 * (n + 1) }, (_, k) =>
      k % 2 !== axis ? 0 : k >= 2 * n ? 1 : bolts.includes(k >> 1) ? -1 / bolts.length : 0,
    );
  return normal(
    `where the shaft of ${s.face} lies among its bolts, as measured`,
    [fromBolts(0), fromBolts(1)],
    s.covariance,
  );
};

/** Nothing but its bolts holds the part. */
const byFasteners = (s: LocatedShaft): readonly Source[] => {
  const play = playOfBolts(
    s.joints.filter((j) => j.role === 'fastener'),
    s.shaft,
  );
  return play === null
    ? []
    : [disc(`play of ${s.face}'s bolts: nothing else locates it`, play, still), measuredAmong(s)];
};

/**
 * What can put the shaft of one part out of its place on the plate; a part whose locators are missing hangs on its
 * bolts.
 */
export const sourcesOf = (s: LocatedShaft): readonly Source[] => {
  const [first, second] = s.joints.filter((j) => j.role === 'locator');
  if (s.by === 'set at assembly')
    return s.setTo === undefined ? [] : [disc(`setting ${s.face} true by indicator`, s.setTo, still)];
  if (s.by === 'register' && first !== undefined) return byRegister(s, first);
  if (s.by === 'dowels' && first !== undefined && second !== undefined) return byDowels(s, first, second);
  return byFasteners(s);
};

/**
 * How far the axis of the first register is missed when the plate is set up again for the second: ± as a normal law,
 * mm.
 */
export const againSet = (plusMinus: number): Source => ({
  says: 'setting the plate up again for its second side',
  worst: plusMinus,
  draw: (random) => {
    const s = plusMinus / 2;
    return { x: s * random.normal(), y: s * random.normal() };
  },
});
