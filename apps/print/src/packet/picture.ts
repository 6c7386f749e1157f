import { type Drawing, moveShape, text } from '@fayplate/drawing';
import { scaleShape } from '../geometry/scale-shape.js';
import { type Piece, piece } from './piece.js';
import { style } from './style.js';

/** A drawing on the left edge of the text, made smaller where it is larger than `width` × `height`; it carries its own title. */
export const picturePiece = (drawing: Drawing, width: number, height: number): Piece => {
  const { left, right, bottom, top } = drawing.box;
  const k = Math.min(1, width / Math.max(right - left, 1e-6), height / Math.max(top - bottom, 1e-6));
  const shift = { x: -left * k, y: -top * k };
  const shapes = drawing.shapes.map((s) => moveShape({ turn: 0, mirrored: false, shift }, scaleShape(k, s)));
  const high = (top - bottom) * k;
  if (k === 1) return piece(high, shapes, { above: style.lead });
  // Whatever a drawing says of itself was true before it was made smaller.
  const words = text('note', { x: 0, y: -high - style.table - 1.4 }, `Made smaller for this page: 1 : ${(1 / k).toFixed(2)}`, { capital: 1.7, grey: 0.25 });
  return piece(high + style.lead, [...shapes, words], { above: style.lead });
};
