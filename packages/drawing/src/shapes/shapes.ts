import {
  type Box,
  type Motion,
  type Path,
  type Point,
  add,
  apply,
  circlePath,
  movePath,
  polar,
  polygonPath,
} from '@fayplate/core';
import type { GroupShape, Layer, PathShape, Shape, Stroke, TextShape } from '../types.js';

/** A path as a shape: stroked, filled, or both. */
export const pathShape = (layer: Layer, path: Path, stroke: Stroke | null, fill: number | null = null): PathShape => ({
  kind: 'path',
  layer,
  path,
  stroke,
  fill,
});

/** Straight lines from point to point, left open. Throws a `RangeError` where there is no point. */
export const polyline = (layer: Layer, points: readonly Point[], stroke: Stroke): PathShape => {
  const [start, ...rest] = points;
  if (start === undefined) throw new RangeError('polyline: no points');
  return pathShape(layer, { start, closed: false, edges: rest.map((to) => ({ kind: 'line', to })) }, stroke);
};

/** A straight line, mm. */
export const line = (layer: Layer, from: Point, to: Point, stroke: Stroke): PathShape =>
  polyline(layer, [from, to], stroke);

/** A closed figure with straight sides; points in mm. */
export const polygon = (
  layer: Layer,
  points: readonly Point[],
  stroke: Stroke | null,
  fill: number | null = null,
): PathShape => pathShape(layer, polygonPath(points), stroke, fill);

/** A box as a figure. */
export const rectangle = (layer: Layer, box: Box, stroke: Stroke | null, fill: number | null = null): PathShape =>
  polygon(
    layer,
    [
      { x: box.left, y: box.bottom },
      { x: box.right, y: box.bottom },
      { x: box.right, y: box.top },
      { x: box.left, y: box.top },
    ],
    stroke,
    fill,
  );

/** A whole circle; centre and radius in mm. */
export const circle = (
  layer: Layer,
  centre: Point,
  radius: number,
  stroke: Stroke | null,
  fill: number | null = null,
): PathShape => pathShape(layer, circlePath(centre, radius), stroke, fill);

/** Counter-clockwise from one direction to another, radians from +x; less than a full turn. */
export const arc = (layer: Layer, centre: Point, radius: number, from: number, to: number, stroke: Stroke): PathShape =>
  pathShape(
    layer,
    {
      start: add(centre, polar(radius, from)),
      closed: false,
      edges: [{ kind: 'arc', centre, ccw: true, to: add(centre, polar(radius, to)) }],
    },
    stroke,
  );

/** Below this an axis is nothing on paper, mm. */
const FLAT = 1e-4;

/** Semi-axes in mm, `angle` of the major one in radians; drawn as a polygon that strays less than 0.001 of its size. */
export const ellipse = (
  layer: Layer,
  centre: Point,
  axes: { readonly major: number; readonly minor: number; readonly angle: number },
  stroke: Stroke | null,
  fill: number | null = null,
): PathShape => {
  const c = Math.cos(axes.angle);
  const s = Math.sin(axes.angle);
  // One that is flat is a stroke: as an outline it would run back over its own corners.
  if (axes.minor < FLAT) {
    const end = { x: centre.x + c * axes.major, y: centre.y + s * axes.major };
    const start = { x: centre.x - c * axes.major, y: centre.y - s * axes.major };
    return pathShape(layer, { start, edges: [{ kind: 'line', to: end }], closed: false }, stroke, fill);
  }
  const points = Array.from({ length: 72 }, (_, i) => {
    const p = polar(1, (i * 2 * Math.PI) / 72);
    const u = p.x * axes.major;
    const v = p.y * axes.minor;
    return { x: centre.x + c * u - s * v, y: centre.y + s * u + c * v };
  });
  return polygon(layer, points, stroke, fill);
};

/** Options of a text that are not its place and words. */
export type TextStyle = Partial<Pick<TextShape, 'capital' | 'weight' | 'anchor' | 'turn' | 'grey'>>;

/** One line of text, 2.5 mm capitals from the left unless told; `at` is on its baseline. */
export const text = (layer: Layer, at: Point, words: string, style: TextStyle = {}): TextShape => ({
  kind: 'text',
  layer,
  at,
  text: words,
  capital: 2.5,
  weight: 'regular',
  anchor: 'start',
  turn: 0,
  grey: 0,
  ...style,
});

/** Shapes under one name, so that a page can find them again. */
export const group = (name: string | null, shapes: readonly Shape[], layer: Layer | null = null): GroupShape => ({
  kind: 'group',
  layer,
  name,
  shapes,
});

/** A shape carried by a rigid motion. Letters stay readable: a mirror moves and turns a text, but never reverses it. */
export const moveShape = (motion: Motion, shape: Shape): Shape => {
  if (shape.kind === 'group') return { ...shape, shapes: shape.shapes.map((s) => moveShape(motion, s)) };
  if (shape.kind === 'path') return { ...shape, path: movePath(motion, shape.path) };
  const flipped = { start: 'end', middle: 'middle', end: 'start' } as const;
  return {
    ...shape,
    at: apply(motion, shape.at),
    turn: motion.turn + (motion.mirrored ? -shape.turn : shape.turn),
    anchor: motion.mirrored ? flipped[shape.anchor] : shape.anchor,
  };
};
