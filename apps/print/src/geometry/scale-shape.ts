import type { Shape } from '@fayplate/drawing';
import { carry, carryPath, scaled } from './affine.js';

/** A shape made larger or smaller about the origin, its lines and letters with it. */
export const scaleShape = (k: number, shape: Shape): Shape => {
  if (k === 1) return shape;
  if (shape.kind === 'group') return { ...shape, shapes: shape.shapes.map((s) => scaleShape(k, s)) };
  if (shape.kind === 'text') return { ...shape, at: carry(scaled(k), shape.at), capital: shape.capital * k };
  const { stroke } = shape;
  return {
    ...shape,
    path: carryPath(scaled(k), shape.path),
    stroke: stroke === null ? null : { ...stroke, width: stroke.width * k, dash: stroke.dash.map((d) => d * k) },
  };
};
