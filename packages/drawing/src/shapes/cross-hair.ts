import type { Point } from '@fayplate/core';
import type { Layer, Shape, Stroke } from '../types.js';
import { line } from './shapes.js';

/**
 * Four arms from `open` to `reach` mm out of the centre: the point itself stays bare, so that a punch set on it can be seen.
 */
export const crossHair = (
  layer: Layer,
  centre: Point,
  arms: { readonly open: number; readonly reach: number },
  stroke: Stroke,
): readonly Shape[] =>
  [
    { x: 1, y: 0 },
    { x: 0, y: 1 },
    { x: -1, y: 0 },
    { x: 0, y: -1 },
  ].map((d) => {
    const out = (k: number): Point => ({ x: centre.x + k * d.x, y: centre.y + k * d.y });
    return line(layer, out(arms.open), out(arms.reach), stroke);
  });
