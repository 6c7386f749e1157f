import type { FeatureSlots } from '../network/unknowns.js';

/** What a motion leaves over a shift, a turn and a stretch counts as none below this share of it. */
const NOUGHT = 1e-6;

/** The stretch in a motion v of all features, per mm, and the share of the motion that no shift, turn and stretch of the whole explains. */
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

/** Whether the shape is fixed and only its size is not: all that moves without changing a reading shifts, turns or stretches the whole (angles alone). */
export const onlySizeLoose = (
  features: readonly FeatureSlots[],
  values: Float64Array,
  nullSpace: readonly Float64Array[],
): boolean => {
  if (features.length < 3) return false;
  const motions = nullSpace.map((v) => stretchOf(features, values, v));
  return motions.every((m) => m.left < NOUGHT) && motions.some((m) => m.stretch > NOUGHT);
};
