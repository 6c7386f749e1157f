import { type Lettering, type Picture, moveShape, scaleWords, wrapText } from '@fayplate/drawing';
import { scaleShape } from '../geometry/affine.js';
import { type Piece, piece, style } from './piece.js';
import { linesOf } from './text.js';

/** Capitals of a drawing that are read at arm's length, mm; its smaller letters are four fifths of them. */
const LEGIBLE = 2.5;

/**
 * Of the height that a picture and its words are given, the drawing's own part at least; many notes take more height
 * instead.
 */
const DRAWN = 0.62;

/**
 * A picture on the left edge of the text, made larger where its letters are small, smaller where it would pass `width`
 * × `height` (with many notes, a page of `most`); title and notes are set as the page's own text, so that they stay
 * legible.
 */
export const picturePiece = (
  { title, box, shapes, notes, scale, capital }: Picture,
  width: number,
  height: number,
  most: number,
  lettering: Lettering,
): Piece => {
  const { left, right, bottom, top } = box;
  const head = wrapText(title, width, style.headings[3], 'bold', lettering);
  const room = (k: number): readonly string[] =>
    [...notes, scaleWords(scale === null ? null : scale * k)]
      .filter((n) => n !== '')
      .flatMap((n) => wrapText(n, width, style.table, 'regular', lettering));
  const words = (head.length + room(0.5).length) * style.lead;
  const k = Math.min(
    Math.max(1, LEGIBLE / capital),
    width / Math.max(right - left, 1e-6),
    Math.max(height - words, Math.min(DRAWN * height, most - words)) / Math.max(top - bottom, 1e-6),
  );
  const upper = head.length * style.lead;
  const lower = upper + (top - bottom) * k;
  const feet = room(k);
  return piece(
    lower + feet.length * style.lead,
    [
      ...linesOf(head, 0, style.headings[3], 'bold', style.lead),
      ...shapes.map((s) => scaleShape(k, { x: -left * k, y: -upper - top * k }, s)),
      ...linesOf(feet, 0, style.table, 'regular', style.lead, 0.25).map((s) =>
        moveShape({ turn: 0, mirrored: false, shift: { x: 0, y: -lower } }, s),
      ),
    ],
    { above: style.lead },
  );
};
