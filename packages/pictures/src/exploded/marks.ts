import { type Point, distance, flatten, pathBox, polar } from '@fayplate/core';
import type { Lettering } from '@fayplate/drawing';
import type { Shifted } from './apart.js';
import type { Piece } from './piece.js';
import { type Chain, type Spot, holds } from './solid.js';

/** What stands on a face or beside it: closed contours, and the ground that they are read on. */
export interface Mark {
  readonly contours: readonly Chain[];
  readonly ground: Chain;
}

/** Chords to one curve of a letter. */
const CHORDS = 4;

/**
 * Words lying in the plane of a face, centred on `at` as their foot, `turn` radians from x; each contour a closed
 * chain.
 */
const planeWords = (
  words: string,
  at: Point,
  { capital, turn, z }: { readonly capital: number; readonly turn: number; readonly z: number },
  letters: Lettering,
): readonly Chain[] => {
  const { glyphs, width, scale } = letters.lay(words, capital, 'bold');
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  const laid = (p: Point, from: number): Spot => {
    const [x, y] = [from - width / 2 + p.x * scale, p.y * scale];
    return { x: at.x + c * x - s * y, y: at.y + s * x + c * y, z };
  };
  return glyphs.flatMap((g) =>
    letters.glyph(g.id, 'bold').contours.map((contour): Chain => {
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

/** How far a piece reaches from a place in a direction. */
const reach = (piece: Piece, about: Point, direction: number): number => {
  const u = polar(1, direction);
  const rim = flatten(piece.outline, 0.2);
  let far = 0;
  for (const [i, a] of rim.entries()) {
    const b = rim[(i + 1) % rim.length] ?? a;
    const side = (p: Point): number => u.x * (p.y - about.y) - u.y * (p.x - about.x);
    const [s, t] = [side(a), side(b)];
    if (s > 0 === t > 0) continue;
    const k = s / (s - t);
    far = Math.max(far, u.x * (a.x + k * (b.x - a.x) - about.x) + u.y * (a.y + k * (b.y - a.y) - about.y));
  }
  return far;
};

/** Places along each side of a ground that are asked for what stands before them. */
const ASKED = 6;

/** Whether a ground, from its first corner along its sides, is seen all over. */
const isClear = ([a, b, , d]: Chain, isHidden: (p: Spot) => boolean): boolean => {
  if (a === undefined || b === undefined || d === undefined) return false;
  for (let i = 0; i <= ASKED; i++)
    for (let j = 0; j <= ASKED; j++) {
      const [u, v] = [i / ASKED, j / ASKED];
      const p = { x: a.x + u * (b.x - a.x) + v * (d.x - a.x), y: a.y + u * (b.y - a.y) + v * (d.y - a.y), z: a.z };
      if (isHidden(p)) return false;
    }
  return true;
};

/** Whether nothing stands before a mark. */
export const isOpen = (mark: Mark, isHidden: (p: Spot) => boolean): boolean =>
  isClear(mark.ground, isHidden) && !mark.contours.flat().some(isHidden);

/** The corners of a ground in the plane, from along and across a direction. */
const groundOf = (at: (along: number, across: number) => Spot, low: number, high: number, half: number): Chain => [
  at(low, -half),
  at(high, -half),
  at(high, half),
  at(low, half),
];

/**
 * The triangle at each 12 o'clock of a piece and its number, lying in the plane of the face just off its rim; `size`:
 * of its letters, mm.
 */
export const clockMarks = ({ piece, by }: Shifted, size: number, letters: Lettering): readonly Mark[] => {
  let [last, wide]: [Point | null, number] = [null, 0];
  return piece.clocks.map(({ of, at, about }) => {
    const far = reach(piece, about, at);
    const z = piece.top + by;
    const spot = (along: number, across: number): Spot => {
      const [p, q] = [polar(far + along, at), polar(across, at - Math.PI / 2)];
      return { x: about.x + p.x + q.x, y: about.y + p.y + q.y, z };
    };
    const tip = spot(0.25 * size, 0);
    const words = piece.clocks.length > 1 ? `12 ${of}` : '12';
    const half = letters.width(words, size, 'bold') / 2 + 0.2 * size;
    // Two that lie near each other are lettered one above the other.
    const up = last !== null && distance(last, tip) < wide + half ? 1.4 * size : 0;
    [last, wide] = [tip, half];
    return {
      contours: [
        [tip, spot(1.25 * size, 0.5 * size), spot(1.25 * size, -0.5 * size), tip],
        ...planeWords(words, spot(up + 1.6 * size, 0), { capital: size, turn: at - Math.PI / 2, z }, letters),
      ],
      ground: groundOf(spot, 0.15 * size, up + 2.8 * size, half),
    };
  });
};

/**
 * A letter on the face that the eye sees, where it has metal all round it and nothing stands before it: of the sizes
 * the largest that goes, as near the middle of the left as can be. Null where there is no room.
 */
export const sideMark = (
  letter: string,
  { piece, by }: Shifted,
  sizes: readonly number[],
  isHidden: (p: Spot) => boolean,
  letters: Lettering,
): Mark | null => {
  const rim = { points: flatten(piece.outline, 0.2), corner: [], box: pathBox(piece.outline) };
  const level = piece.top;
  const others = piece.body
    .slice(1)
    .filter((p) => (p.cut ? p.from < level && p.to > level : p.from < level + 1e-6 && p.to > level + 1e-6))
    .map((p) => p.ring);
  const isFree = (p: Point, room: number): boolean =>
    holds(rim, p) &&
    others.every((r) => !holds(r, p)) &&
    [rim, ...others].every((r) => r.points.every((q) => distance(p, q) > room));
  const { left, right, bottom, top } = rim.box;
  const z = level + by;
  for (const capital of sizes) {
    const half = letters.width(letter, capital, 'bold') / 2;
    const box = (at: Point): Chain => [
      { x: at.x - half, y: at.y - capital / 2, z },
      { x: at.x + half, y: at.y - capital / 2, z },
      { x: at.x + half, y: at.y + capital / 2, z },
      { x: at.x - half, y: at.y + capital / 2, z },
    ];
    const step = 0.5 * capital;
    const free: Point[] = [];
    for (let x = left + step; x < right; x += step)
      for (let y = bottom + step; y < top; y += step) {
        const at = { x, y };
        if (isFree(at, 0.75 * capital) && isClear(box(at), isHidden)) free.push(at);
      }
    const off = (p: Point): number => p.x + 0.5 * Math.abs(p.y - (top + bottom) / 2);
    const at = free.reduce<Point | null>((best, p) => (best === null || off(p) < off(best) ? p : best), null);
    if (at !== null)
      return {
        contours: planeWords(letter, { x: at.x, y: at.y - capital / 2 }, { capital, turn: 0, z }, letters),
        ground: box(at),
      };
  }
  return null;
};
