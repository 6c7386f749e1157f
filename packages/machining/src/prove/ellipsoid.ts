/**
 * What a convex problem says at a point: how much it is off and which way that grows, or that the point may not be and
 * which way it gets worse.
 */
export interface Cut {
  /** The objective here; null where a constraint is broken. */
  readonly value: number | null;
  /** Subgradient of the objective, or of the broken constraint. */
  readonly slope: readonly number[];
}

interface Least {
  readonly at: readonly number[];
  readonly value: number;
}

/**
 * Least value of a convex function within convex constraints by the ellipsoid method (Shor 1977; Yudin & Nemirovski
 * 1976): slow and sure, for a few variables.
 * `reach`: how far from `start` the answer can lie, each variable. Null where no permitted point was met.
 */
export const leastConvex = (
  cut: (z: readonly number[]) => Cut,
  start: readonly number[],
  reach: number,
  tolerance: number,
): Least | null => {
  const n = start.length;
  let z = start.slice();
  let p = start.map((_, i) => start.map((_, j) => (i === j ? n * reach * reach : 0)));
  let best: Least | null = null;
  for (let turn = 0; turn < 4000; turn++) {
    const { value, slope } = cut(z);
    if (value !== null && (best === null || value < best.value)) best = { at: z, value };
    const pg = p.map((row) => row.reduce((s, v, j) => s + v * (slope[j] ?? 0), 0));
    const size = Math.sqrt(
      Math.max(
        0,
        slope.reduce((s, g, i) => s + g * (pg[i] ?? 0), 0),
      ),
    );
    if (!(size > 0) || (value !== null && size < tolerance)) break;
    const step = pg.map((v) => v / size);
    z = z.map((v, i) => v - (step[i] ?? 0) / (n + 1));
    const k = (n * n) / (n * n - 1);
    p = p.map((row, i) => row.map((v, j) => k * (v - (2 / (n + 1)) * (step[i] ?? 0) * (step[j] ?? 0))));
  }
  return best;
};
