import { type Point, distance } from '@fayplate/core';
import { type Shape, line, pens } from '@fayplate/drawing';

/** A centre line that stops short of every punch point it would run through, so that the bare centre stays bare. */
export const centreLine = (
  from: Point,
  to: Point,
  keepOff: readonly { readonly at: Point; readonly keep: number }[],
): readonly Shape[] => {
  const length = distance(from, to);
  const u = { x: (to.x - from.x) / length, y: (to.y - from.y) / length };
  const gaps = keepOff
    .map(({ at, keep }) => {
      const along = (at.x - from.x) * u.x + (at.y - from.y) * u.y;
      const off = Math.abs((at.x - from.x) * u.y - (at.y - from.y) * u.x);
      return { along, half: off < keep ? keep : 0 };
    })
    .filter((g) => g.half > 0)
    .sort((a, b) => a.along - b.along);
  const out: Shape[] = [];
  let pen = 0;
  const draw = (a: number, b: number): void => {
    const at = (k: number): Point => ({ x: from.x + k * u.x, y: from.y + k * u.y });
    if (b - a > 1) out.push(line('note', at(a), at(b), pens.centre));
  };
  for (const g of gaps) {
    draw(pen, Math.min(length, g.along - g.half));
    pen = Math.max(pen, g.along + g.half);
  }
  draw(pen, length);
  return out;
};
