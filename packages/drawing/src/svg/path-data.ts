import { type Path, type Point, oncePer, svgPathData } from '@fayplate/core';
import type { Glyph, GlyphContour } from '../types.js';

const down = (p: Point): Point => ({ x: p.x, y: -p.y });

/** SVG path data; SVG has y down, so that arcs turn the other way. Arcs stay arcs, to 1e-6 mm. */
export const pathData = (path: Path): string =>
  svgPathData({
    start: down(path.start),
    closed: path.closed,
    edges: path.edges.map((e) =>
      e.kind === 'line'
        ? { kind: 'line', to: down(e.to) }
        : { kind: 'arc', to: down(e.to), centre: down(e.centre), ccw: !e.ccw },
    ),
  });

/** Letters are drawn in whole ten-thousandths of a millimetre. */
const GRAIN = 1e4;

/** From ten-thousandths to millimetres, in the fewest figures. */
const short = (grains: number): string => String(grains / GRAIN);

/**
 * A glyph's outlines sized, turned and with y down: where the first begins from the glyph's own origin, in
 * ten-thousandths, and all that follows as steps.
 */
interface Drawn {
  readonly x: number;
  readonly y: number;
  readonly steps: string;
}

const drawn = (contours: readonly GlyphContour[], size: number, turn: number): Drawn | null => {
  const c = Math.cos(turn) * size * GRAIN;
  const s = Math.sin(turn) * size * GRAIN;
  const x = (p: Point): number => Math.round(c * p.x - s * p.y);
  const y = (p: Point): number => Math.round(-(s * p.x + c * p.y));
  const by = (from: Point, to: Point): string => `${short(x(to) - x(from))} ${short(y(to) - y(from))}`;
  const [first] = contours;
  if (first === undefined) return null;
  const rest = contours.map((contour, i) => {
    let pen = contour.start;
    const steps = contour.steps.map((step) => {
      const from = pen;
      pen = step.to;
      if (step.kind === 'line') return `l${by(from, step.to)}`;
      if (step.kind === 'quadratic') return `q${by(from, step.control)} ${by(from, step.to)}`;
      return `c${by(from, step.control1)} ${by(from, step.control2)} ${by(from, step.to)}`;
    });
    // After its end the pen is back where the last outline began.
    const before = contours[i - 1];
    return `${before === undefined ? '' : `m${by(before.start, contour.start)}`}${steps.join('')}z`;
  });
  return { x: x(first.start), y: y(first.start), steps: rest.join('') };
};

type Sized = (size: number) => (turn: number) => Drawn | null;

/** A letter comes again and again in one size: it is worked out once. */
const drawnOnce = oncePer(
  (glyph: Glyph): Sized => oncePer((size) => oncePer((turn) => drawn(glyph.contours, size, turn))),
  new WeakMap<Glyph, Sized>(),
);

/**
 * Outlines of one letter, `size` mm to a font unit, its origin at `at` and turned, y down, to 0.0001 mm; nothing for a
 * space.
 */
export const letterData = (glyph: Glyph, size: number, at: Point, turn: number): string => {
  const letter = drawnOnce(glyph)(size)(turn);
  return letter === null
    ? ''
    : `M${short(Math.round(at.x * GRAIN) + letter.x)} ${short(Math.round(-at.y * GRAIN) + letter.y)}${letter.steps}`;
};
