import type { Point } from '@fayplate/core';
import type { Shape } from '@fayplate/drawing';
import { type Affine, carry, carryPath } from './affine.js';

/** A shape made `k` times its size about the origin, its lines and letters with it, and then shifted. */
export const scaleShape = (k: number, shift: Point, shape: Shape): Shape => {
  if (shape.kind === 'group') return { ...shape, shapes: shape.shapes.map((s) => scaleShape(k, shift, s)) };
  const place: Affine = [k, 0, 0, k, shift.x, shift.y];
  if (shape.kind === 'text') return { ...shape, at: carry(place, shape.at), capital: shape.capital * k };
  const { stroke } = shape;
  return {
    ...shape,
    path: carryPath(place, shape.path),
    stroke: stroke === null ? null : { ...stroke, width: stroke.width * k, dash: stroke.dash.map((d) => d * k) },
  };
};
