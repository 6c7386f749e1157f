import type { Point } from '@fayplate/core';
import type { Shape } from '@fayplate/drawing';
import { type Affine, carry, carryPath } from './affine.js';

/** Lines grow thinner slower than a drawing grows smaller, all by the same part: printed, they stay to be seen and keep their ranks. */
const penAt = (k: number): number => Math.min(1, Math.sqrt(k));

/** A shape made `k` times its size about the origin, its letters with it, and then shifted. */
export const scaleShape = (k: number, shift: Point, shape: Shape): Shape => {
  if (shape.kind === 'group') return { ...shape, shapes: shape.shapes.map((s) => scaleShape(k, shift, s)) };
  const place: Affine = [k, 0, 0, k, shift.x, shift.y];
  if (shape.kind === 'text') return { ...shape, at: carry(place, shape.at), capital: shape.capital * k };
  const { stroke } = shape;
  const pen = penAt(k);
  return {
    ...shape,
    path: carryPath(place, shape.path),
    stroke: stroke === null ? null : { ...stroke, width: stroke.width * pen, dash: stroke.dash.map((d) => d * pen) },
  };
};
