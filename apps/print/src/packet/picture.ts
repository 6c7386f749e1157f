import { type Drawing, type Shape, moveShape, text } from '@fayplate/drawing';
import { scaleShape } from '../geometry/scale-shape.js';
import { type Piece, piece } from './piece.js';
import { style } from './style.js';

/** A drawing, made smaller where it is larger than the page leaves room for, in the middle of the width with its title under it. */
export const picturePiece = (drawing: Drawing, width: number, height: number): Piece => {
  const { left, right, bottom, top } = drawing.box;
  const k = Math.min(1, width / Math.max(right - left, 1e-6), (height - 2 * style.lead) / Math.max(top - bottom, 1e-6));
  const high = (top - bottom) * k;
  const shift = { x: (width - (right - left) * k) / 2 - left * k, y: -top * k };
  const shapes: readonly Shape[] = drawing.shapes.map((s) => moveShape({ turn: 0, mirrored: false, shift }, scaleShape(k, s)));
  const caption = text('note', { x: width / 2, y: -high - style.lead }, drawing.title, { capital: style.table, anchor: 'middle' });
  return piece(high + 1.5 * style.lead, [...shapes, caption], { above: style.lead });
};
