import { type Point, add, distance, polar, scale, subtract, heading } from '@fayplate/core';
import { type Shape, arrow, line, pens, text } from '@fayplate/drawing';

/** Capitals on the sheet, mm: ISO 3098 has 2.5 and 3.5. */
export const CAPITAL = 2.5;
/** An extension line starts this far off the outline and runs this far past its dimension line, mm (ISO 129-1, from memory). */
const OFF = 1;
const PAST = 2;

/**
 * A length between two points with its dimension line `out` mm to the left of the way from the first to the second (negative:
 * to the right). `level`: the words stand level in a gap of the line (habit of ASME Y14.5), else along and above it (ISO 129-1).
 */
export const dimension = (from: Point, to: Point, out: number, words: string, level: boolean): readonly Shape[] => {
  const along = heading(subtract(to, from));
  const side = Math.sign(out);
  const normal = polar(1, along + Math.PI / 2);
  const at = (p: Point, d: number): Point => add(p, scale(normal, d));
  const [a, b] = [at(from, out), at(to, out)];
  const middle = scale(add(a, b), 0.5);
  const turn = along > Math.PI / 2 + 1e-9 || along <= -Math.PI / 2 + 1e-9 ? along + Math.PI : along;
  const half = words.length * CAPITAL * 0.38 + 1;
  const upright = Math.abs(Math.sin(along)) > 0.7;
  const gap = level ? (upright ? CAPITAL : half) : 0;
  const unit = scale(subtract(b, a), 1 / Math.max(distance(a, b), 1e-9));
  return [
    line('note', at(from, side * OFF), at(from, out + side * PAST), pens.hair),
    line('note', at(to, side * OFF), at(to, out + side * PAST), pens.hair),
    ...arrow('note', add(middle, scale(unit, -gap)), a, pens.hair, CAPITAL),
    ...arrow('note', add(middle, scale(unit, gap)), b, pens.hair, CAPITAL),
    level
      ? text('note', { x: middle.x, y: middle.y - CAPITAL / 2 }, words, { capital: CAPITAL, anchor: 'middle' })
      : text('note', add(middle, polar(0.8, turn + Math.PI / 2)), words, { capital: CAPITAL, anchor: 'middle', turn }),
  ];
};

/** A thin thing measured across, its arrows outside and the words beside: from `a` to `b`, both on the dimension line. */
export const narrowDimension = (a: Point, b: Point, words: string): readonly Shape[] => {
  const unit = scale(subtract(b, a), 1 / Math.max(distance(a, b), 1e-9));
  const outer = (p: Point, s: number): Point => add(p, scale(unit, s * 2.4 * CAPITAL));
  const end = outer(b, 1);
  return [
    ...arrow('note', outer(a, -1), a, pens.hair, CAPITAL),
    ...arrow('note', end, b, pens.hair, CAPITAL),
    line('note', a, b, pens.hair),
    text('note', { x: end.x + 0.8, y: end.y - CAPITAL / 2 }, words, { capital: CAPITAL }),
  ];
};
