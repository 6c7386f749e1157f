import type { FeatureSlots } from '../network/unknowns.js';

/** A small motion of a rigid body in the plane of the unknowns: of the point (0, 0) of that plane, and a turn. */
export interface Twist {
  readonly x: number;
  readonly y: number;
  readonly turn: number;
}

export const velocityAt = (t: Twist, x: number, y: number): readonly [number, number] => [
  t.x - t.turn * y,
  t.y + t.turn * x,
];

/**
 * The twist of least squares that a set of features has under v; exact for a rigid body; a single feature does not
 * turn.
 */
export const twistOf = (features: readonly FeatureSlots[], values: Float64Array, v: Float64Array): Twist => {
  const n = Math.max(features.length, 1);
  const sum = (f: (s: FeatureSlots) => number): number => features.reduce((t, s) => t + f(s), 0);
  const px = (s: FeatureSlots): number => values[s.x] as number;
  const py = (s: FeatureSlots): number => values[s.y] as number;
  const mx = sum(px) / n;
  const my = sum(py) / n;
  const ux = sum((s) => v[s.x] as number) / n;
  const uy = sum((s) => v[s.y] as number) / n;
  const spread = sum((s) => (px(s) - mx) ** 2 + (py(s) - my) ** 2);
  const swirl = sum((s) => (px(s) - mx) * ((v[s.y] as number) - uy) - (py(s) - my) * ((v[s.x] as number) - ux));
  const turn = spread === 0 ? 0 : swirl / spread;
  return { x: ux + turn * my, y: uy - turn * mx, turn };
};

export const without = (a: Twist, b: Twist): Twist => ({ x: a.x - b.x, y: a.y - b.y, turn: a.turn - b.turn });

/**
 * Independent twists among several, lengths weighed against turns by `size` (mm): modified Gram–Schmidt, what is left
 * below 1e-6 counts as none.
 */
export const independent = (twists: readonly Twist[], size: number): readonly Twist[] => {
  const kept: (readonly [number, number, number])[] = [];
  const most = Math.max(...twists.map((t) => Math.hypot(t.x, t.y, t.turn * size)), 1e-300);
  for (const t of twists) {
    let [a, b, c] = [t.x, t.y, t.turn * size];
    for (const [p, q, r] of kept) {
      const along = a * p + b * q + c * r;
      a -= along * p;
      b -= along * q;
      c -= along * r;
    }
    const left = Math.hypot(a, b, c);
    if (left > 1e-6 * most) kept.push([a / left, b / left, c / left]);
  }
  return kept.map(([x, y, turn]) => ({ x, y, turn: turn / size }));
};

/** What a motion leaves over a shift, a turn and a stretch counts as none below this share of it. */
const NONE = 1e-6;

/**
 * The stretch in a motion v of all features, per mm, and the share of the motion that no shift, turn and stretch of the
 * whole explains.
 */
const stretchOf = (
  features: readonly FeatureSlots[],
  values: Float64Array,
  v: Float64Array,
): { readonly stretch: number; readonly left: number } => {
  const n = features.length;
  const mean = (of: Float64Array, axis: 'x' | 'y'): number =>
    features.reduce((t, s) => t + (of[s[axis]] as number), 0) / n;
  const [mx, my, ux, uy] = [mean(values, 'x'), mean(values, 'y'), mean(v, 'x'), mean(v, 'y')];
  const arms = features.map((s) => ({
    x: (values[s.x] as number) - mx,
    y: (values[s.y] as number) - my,
    vx: (v[s.x] as number) - ux,
    vy: (v[s.y] as number) - uy,
  }));
  const spread = arms.reduce((t, a) => t + a.x * a.x + a.y * a.y, 0);
  const moved = arms.reduce((t, a) => t + a.vx * a.vx + a.vy * a.vy, 0);
  if (spread === 0 || moved === 0) return { stretch: 0, left: 0 };
  const stretch = arms.reduce((t, a) => t + a.x * a.vx + a.y * a.vy, 0) / spread;
  const turn = arms.reduce((t, a) => t + a.x * a.vy - a.y * a.vx, 0) / spread;
  const rest = arms.reduce(
    (t, a) => t + (a.vx - stretch * a.x + turn * a.y) ** 2 + (a.vy - stretch * a.y - turn * a.x) ** 2,
    0,
  );
  return { stretch: Math.abs(stretch) * Math.sqrt(spread / moved), left: Math.sqrt(rest / moved) };
};

/**
 * Whether the shape is fixed and only its size is not: all that moves without changing a reading shifts, turns or
 * stretches the whole (angles alone).
 */
export const onlySizeLoose = (
  features: readonly FeatureSlots[],
  values: Float64Array,
  nullSpace: readonly Float64Array[],
): boolean => {
  if (features.length < 3) return false;
  const motions = nullSpace.map((v) => stretchOf(features, values, v));
  return motions.every((m) => m.left < NONE) && motions.some((m) => m.stretch > NONE);
};
