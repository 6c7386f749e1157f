import { type Point, fitCircle, distance } from '@fayplate/core';
import type { FeatureSlots } from '../network/unknowns.js';
import { type Row, rowOf } from './rows.js';

/**
 * The centre of the circle of least squares through features' centres, and how it moves with them: with uᵢ the unit vector from the
 * centre to feature i and u′ᵢ that less their mean, dc = (Σ u′ᵢ u′ᵢᵀ)⁻¹ Σ u′ᵢ (uᵢ · dpᵢ), the radius having been eliminated from the normal equations
 * (Gauss and Newton's step, residuals taken as small). Null where the features lie on a line or are fewer than three.
 */
export const circleOrigin = (
  x: Float64Array,
  features: readonly FeatureSlots[],
): { readonly at: Point; readonly rows: readonly [Row, Row] } | null => {
  const points = features.map((f) => ({ x: x[f.x] as number, y: x[f.y] as number }));
  const circle = fitCircle(points);
  if (circle === null) return null;
  const units = points.map((p) => {
    const d = Math.max(distance(p, circle.centre), 1e-300);
    return { x: (p.x - circle.centre.x) / d, y: (p.y - circle.centre.y) / d };
  });
  const mean = (of: (u: Point) => number): number => units.reduce((sum, u) => sum + of(u), 0) / units.length;
  const [mx, my] = [mean((u) => u.x), mean((u) => u.y)];
  let [xx, xy, yy] = [0, 0, 0];
  for (const u of units) {
    xx += (u.x - mx) ** 2;
    xy += (u.x - mx) * (u.y - my);
    yy += (u.y - my) ** 2;
  }
  const det = xx * yy - xy * xy;
  if (!(det > 1e-12)) return null;
  const row = (a: number, b: number): Row =>
    rowOf(
      ...features.flatMap((f, i) => {
        const u = units[i] ?? { x: 0, y: 0 };
        const w = (a * (u.x - mx) + b * (u.y - my)) / det;
        return [[f.x, w * u.x] as const, [f.y, w * u.y] as const];
      }),
    );
  return { at: circle.centre, rows: [row(yy, -xy), row(-xy, xx)] };
};
