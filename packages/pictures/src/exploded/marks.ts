import { type Path, type Point, distance, flatten, pathBox } from '@fayplate/core';
import type { Lettering } from '@fayplate/drawing';
import type { Body, Chain, Spot } from './solid.js';

/** Chords to one curve of a letter. */
const CHORDS = 4;

/** Words lying in the plane of a face, centred on `at` as their foot, `turn` radians from x; each contour a closed chain. */
export const planeWords = (
  words: string,
  at: Point,
  { capital, turn, z }: { readonly capital: number; readonly turn: number; readonly z: number },
  letters: Lettering,
): readonly Chain[] => {
  const { glyphs, width, scale } = letters.lay(words, capital, 'regular');
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  const laid = (p: Point, from: number): Spot => {
    const [x, y] = [from - width / 2 + p.x * scale, p.y * scale];
    return { x: at.x + c * x - s * y, y: at.y + s * x + c * y, z };
  };
  return glyphs.flatMap((g) =>
    letters.glyph(g.id, 'regular').contours.map((contour): Chain => {
      const points: Point[] = [contour.start];
      for (const step of contour.steps) {
        const a = points.at(-1) ?? contour.start;
        if (step.kind === 'quadratic')
          for (let i = 1; i < CHORDS; i++) {
            const t = i / CHORDS;
            const [u, v, w] = [(1 - t) ** 2, 2 * t * (1 - t), t * t];
            points.push({
              x: u * a.x + v * step.control.x + w * step.to.x,
              y: u * a.y + v * step.control.y + w * step.to.y,
            });
          }
        points.push(step.to);
      }
      return [...points, contour.start].map((p) => laid(p, g.at));
    }),
  );
};

/** Where on a face a letter has metal all round it: of the sizes, the largest that goes; low and to the left, where the eye is nearest. */
export const markSpot = (
  body: Body,
  level: number,
  outline: Path,
  sizes: readonly number[],
): { readonly at: Point; readonly capital: number } | null => {
  const rim = flatten(outline, 0.2);
  const edges = [
    ...rim,
    ...body.filter((p) => p.cut && p.from < level && p.to >= level - 1e-6).flatMap((p) => p.ring.points),
    ...body.filter((p) => !p.cut && p.from < level + 1e-6 && p.to > level + 1e-6).flatMap((p) => p.ring.points),
  ];
  const inOutline = (p: Point): boolean => {
    let odd = false;
    for (const [i, a] of rim.entries()) {
      const b = rim[(i + 1) % rim.length] ?? a;
      if (a.y > p.y !== b.y > p.y && p.x < ((b.x - a.x) * (p.y - a.y)) / (b.y - a.y) + a.x) odd = !odd;
    }
    return odd;
  };
  const isOpen = (p: Point): boolean =>
    body.some(
      (q) =>
        q.ring.points !== rim &&
        (q.cut ? q.to >= level - 1e-6 && q.from < level : q.to > level + 1e-6 && q.from < level + 1e-6) &&
        distance(p, middle(q.ring.points)) < span(q.ring.points),
    );
  const box = pathBox(outline);
  for (const capital of sizes) {
    const free: Point[] = [];
    const step = 0.8 * capital;
    for (let x = box.left + step; x < box.right; x += step)
      for (let y = box.bottom + step; y < box.top; y += step) {
        const p = { x, y };
        if (inOutline(p) && !isOpen(p) && edges.every((e) => distance(e, p) > 0.85 * capital)) free.push(p);
      }
    const [best] = free.toSorted((a, b) => a.x + a.y - (b.x + b.y));
    if (best !== undefined) return { at: best, capital };
  }
  return null;
};

const middle = (points: readonly Point[]): Point => ({
  x: points.reduce((s, p) => s + p.x, 0) / points.length,
  y: points.reduce((s, p) => s + p.y, 0) / points.length,
});
const span = (points: readonly Point[]): number => Math.min(...points.map((p) => distance(p, middle(points))));
