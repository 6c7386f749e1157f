import type { Point } from '@fayplate/core';
import type { GlyphContour } from '../../types.js';
import { type FontSource, letterRanges } from '../face.js';
import { fontOf } from '../font.js';
import { type Name, bytesOf, folded, names, step } from './streams.js';

type Streams = Readonly<Record<Name, number[]>>;

const put = (stream: number[], n: number): void => void stream.push(...bytesOf(n));
const putSigned = (stream: number[], n: number): void => put(stream, folded(n));

const same = (a: Point, b: Point): boolean => a.x === b.x && a.y === b.y;
const middle = (a: Point, b: Point): Point => ({ x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 });

/** Where a step goes, written in the fewest numbers: the op that says how. `halves`: a font unit is two. */
const putWay = (
  s: Streams,
  from: Point,
  to: Point,
  [both, x, y]: readonly [number, number, number],
  unit: number,
): number => {
  const [dx, dy] = [(to.x - from.x) * unit, (to.y - from.y) * unit];
  if (dy !== 0 || dx === 0) putSigned(s.stepY, dy);
  if (dx !== 0) putSigned(s.stepX, dx);
  return dx === 0 ? y : dy === 0 ? x : both;
};

const isWhole = (...points: readonly Point[]): boolean =>
  points.every((p) => Number.isInteger(p.x) && Number.isInteger(p.y));

const plus = (a: Point, b: Point): Point => ({ x: a.x + b.x, y: a.y + b.y });
const less = (a: Point, b: Point): Point => ({ x: a.x - b.x, y: a.y - b.y });

const putSteps = (s: Streams, { start, steps }: GlyphContour): void => {
  let pen = start;
  for (const [i, now] of steps.entries()) {
    const next = steps[i + 1];
    const last = next === undefined;
    const home = last && same(now.to, start);
    let op: number;
    let unit = 1;
    if (now.kind === 'cubic') throw new Error('packed outlines are lines and quadratic curves');
    if (now.kind === 'line') {
      unit = home || isWhole(less(now.to, pen)) ? 1 : 2;
      op = home ? step.lineHome : putWay(s, pen, now.to, [step.line, step.lineX, step.lineY], unit);
    } else {
      const between = next?.kind === 'quadratic' && same(now.to, middle(now.control, next.control));
      unit = isWhole(less(now.control, pen), ...(home || between ? [] : [less(now.to, now.control)])) ? 1 : 2;
      putSigned(s.stepX, (now.control.x - pen.x) * unit);
      putSigned(s.stepY, (now.control.y - pen.y) * unit);
      op = home
        ? step.curveHome
        : between
          ? step.curveBetween
          : putWay(s, now.control, now.to, [step.curve, step.curveX, step.curveY], unit);
      // After a point half way the next control is counted from this one.
      if (between) {
        put(s.steps, op + (unit === 2 ? step.halves : 0));
        pen = now.control;
        continue;
      }
    }
    put(s.steps, op + (last ? step.last : 0) + (unit === 2 ? step.halves : 0));
    pen = now.to;
  }
};

/**
 * A contour as it lies from its start: letters of two alphabets, and letters with and without an accent, share theirs.
 */
const shapeOf = ({ start, steps }: GlyphContour): string =>
  JSON.stringify(
    steps.map((s) =>
      [...(s.kind === 'quadratic' ? [s.control] : s.kind === 'cubic' ? [s.control1, s.control2] : []), s.to].flatMap(
        (p) => [p.x - start.x, p.y - start.y],
      ),
    ),
  );

const zero: Point = { x: 0, y: 0 };

const putGlyphs = (s: Streams, font: FontSource, count: number, drawn: ReadonlySet<number>): void => {
  const known = new Map<string, { readonly at: number; readonly start: Point }>();
  const putStart = (start: Point, from: Point): void => {
    putSigned(s.startX, 2 * (start.x - from.x));
    putSigned(s.startY, 2 * (start.y - from.y));
  };
  let before = 0;
  for (let id = 1; id <= count; id++) {
    const { advance, contours } = drawn.has(id) ? font.glyph(id) : { advance: before, contours: [] };
    putSigned(s.advances, advance - before);
    put(s.counts, contours.length);
    before = advance;
    let [last, moved, start] = [-1, zero, zero];
    for (const contour of contours) {
      const shape = shapeOf(contour);
      const found = known.get(shape);
      put(s.contours, found === undefined ? 0 : found.at === last + 1 ? 1 : found.at + 2);
      putStart(contour.start, found === undefined ? start : plus(found.start, moved));
      if (found === undefined) {
        last = known.size;
        known.set(shape, { at: last, start: contour.start });
        putSteps(s, contour);
      } else {
        last = found.at;
        moved = less(contour.start, found.start);
      }
      ({ start } = contour);
    }
  }
};

const putKerns = (s: Streams, font: FontSource, ids: readonly number[]): void => {
  let before = 0;
  for (const left of ids) {
    const pairs = ids.map((right) => [right, font.kern(left, right)] as const).filter(([, by]) => by !== 0);
    if (pairs.length === 0) continue;
    put(s.kerns, left - before);
    put(s.kerns, pairs.length);
    before = left;
    let last = 0;
    for (const [right, by] of pairs) {
      put(s.kerns, right - last);
      putSigned(s.kerns, by);
      last = right;
    }
  }
};

/**
 * A font file (TrueType bytes, whole units of its square) as the outlines, widths and kerning of the letters that
 * drawings are made with, for
 * `letteringFrom`: a third smaller when compressed than the font, and read without a library. Throws on bytes that are
 * no such font.
 */
export const packOutlines = (bytes: ArrayBuffer): Uint8Array => {
  const font = fontOf(bytes);
  const streams: Streams = {
    characters: [],
    advances: [],
    counts: [],
    contours: [],
    startX: [],
    startY: [],
    steps: [],
    stepX: [],
    stepY: [],
    kerns: [],
  };
  let before = 0;
  const ids = new Set<number>();
  for (const [from, to] of letterRanges)
    for (let code = from; code <= to; code++) {
      const id = font.idOf(code);
      putSigned(streams.characters, id - before);
      before = id;
      if (id !== 0) ids.add(id);
    }
  const inOrder = [...ids].sort((a, b) => a - b);
  put(streams.counts, inOrder.at(-1) ?? 0);
  putGlyphs(streams, font, inOrder.at(-1) ?? 0, ids);
  putKerns(streams, font, inOrder);
  return Uint8Array.from([
    ...names.flatMap((name) => bytesOf(streams[name].length)),
    ...names.flatMap((name) => streams[name]),
  ]);
};
