import { type Box, add, boxOf, pathBox, polar } from '@fayplate/core';
import type { Lettering, Shape, TextShape } from '../types.js';

/** How far letters reach below the baseline and above a capital, in capitals (descenders, accents). */
const DESCENT = 0.33;
/** Height of a line of text over its baseline, in capitals. */
const ASCENT = 1.3;

/** The room a text takes, descenders and accents included, its turn too. */
export const textBox = (shape: TextShape, lettering: Lettering): Box => {
  const width = lettering.width(shape.text, shape.capital, shape.weight);
  const from = shape.anchor === 'start' ? 0 : shape.anchor === 'middle' ? -width / 2 : -width;
  const corners = [from, from + width].flatMap((u) =>
    [-DESCENT * shape.capital, ASCENT * shape.capital].map((v) =>
      add(shape.at, add(polar(u, shape.turn), polar(v, shape.turn + Math.PI / 2))),
    ),
  );
  return boxOf(corners);
};

/** The least box about all of them; null for none. */
export const joinBoxes = (boxes: readonly Box[]): Box | null =>
  boxes.length === 0
    ? null
    : {
        left: Math.min(...boxes.map((b) => b.left)),
        right: Math.max(...boxes.map((b) => b.right)),
        bottom: Math.min(...boxes.map((b) => b.bottom)),
        top: Math.max(...boxes.map((b) => b.top)),
      };

/** A box larger by `by` mm on every side. */
export const growBox = (box: Box, by: number): Box => ({
  left: box.left - by,
  right: box.right + by,
  bottom: box.bottom - by,
  top: box.top + by,
});

/** What the shapes cover, half the width of their lines included; null for none. */
export const shapesBox = (shapes: readonly Shape[], lettering: Lettering): Box | null =>
  joinBoxes(
    shapes.flatMap((shape) => {
      if (shape.kind === 'text') return shape.text === '' ? [] : [textBox(shape, lettering)];
      if (shape.kind === 'path') return [growBox(pathBox(shape.path), (shape.stroke?.width ?? 0) / 2)];
      return shapesBox(shape.shapes, lettering) ?? [];
    }),
  );
