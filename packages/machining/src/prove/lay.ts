import { type Point, centroid, register, subtract, largerEigenvalue } from '@fayplate/core';
import { movePattern } from '@fayplate/plate';
import type { Pattern } from '@fayplate/survey';

/**
 * Measured places laid on the design with the least sum of squares, their covariance carried to that laying: what a
 * shift or turn of the whole would take up is no error of a hole (Baarda's S-transformation).
 */
export const layOn = (pattern: Pattern, designed: ReadonlyMap<string, Point>): Pattern => {
  if (pattern.points.length === 0) return pattern;
  const wanted = pattern.ids.map((id) => designed.get(id) ?? { x: 0, y: 0 });
  const laid = movePattern(register(pattern.points, wanted), pattern);
  return { ...laid, covariance: freed(laid.covariance, wanted) };
};

/** Semi-axis of the 95 % ellipse along its longer axis, mm: √5.991 standard deviations. */
export const radius95 = (p: Pattern, i: number): number => {
  const [xx, yy, xy] = [
    p.covariance[2 * i]?.[2 * i] ?? 0,
    p.covariance[2 * i + 1]?.[2 * i + 1] ?? 0,
    p.covariance[2 * i]?.[2 * i + 1] ?? 0,
  ];
  return 2.4477 * Math.sqrt(largerEigenvalue(xx, xy, yy));
};

/** C' = S C Sᵀ with S = I − G (GᵀG)⁻¹ Gᵀ; G: the shift in x, the shift in y and the turn of all places. */
export const freed = (
  covariance: readonly (readonly number[])[],
  places: readonly Point[],
): readonly (readonly number[])[] => {
  const middle = centroid(places);
  const turn = places.map((p) => subtract(p, middle)).flatMap((p) => [-p.y, p.x]);
  // About the mean the three columns stand square to each other, so each is taken off by itself.
  const columns = [places.flatMap(() => [1, 0]), places.flatMap(() => [0, 1]), turn];
  const rid = (v: readonly number[]): readonly number[] =>
    columns.reduce<readonly number[]>((left, g) => {
      const size = g.reduce((s, q) => s + q * q, 0);
      const along = size === 0 ? 0 : left.reduce((s, q, i) => s + q * (g[i] ?? 0), 0) / size;
      return left.map((q, i) => q - along * (g[i] ?? 0));
    }, v);
  const rows = covariance.map(rid);
  const columnsRid = rows.map((_, j) => rid(rows.map((row) => row[j] ?? 0)));
  return rows.map((_, i) => columnsRid.map((column) => column[i] ?? 0));
};
