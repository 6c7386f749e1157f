import { type Path, type Point, add, arcSweep, distance, edgesOf, polar, subtract } from '@fayplate/core';

/** A length in mm for a content stream: to 0.00001 mm, without an exponent (which PDF does not know). */
export const mm = (v: number): string => String(Math.round(v * 1e5) / 1e5 + 0);

/** A factor of a matrix, to twelve places: a metre multiplied by it stays true to a millionth of a mm. */
export const factor = (v: number): string =>
  Math.abs(v) < 5e-13
    ? '0'
    : Number.isInteger(v)
      ? String(v)
      : v
          .toFixed(12)
          .replace(/(?<!0)0+$/, '')
          .replace(/\.$/, '');

const xy = (p: Point): string => `${mm(p.x)} ${mm(p.y)}`;

/** No Bézier piece strays farther than this from its arc, mm. */
const STRAY = 2e-5;

/**
 * Pieces that keep a Bézier arc of this radius within STRAY: one of angle t strays about r t⁶ / 55,500
 * (2.7e-4 r at a quarter turn), never more than an eighth of a turn each.
 */
const pieces = (radius: number, sweep: number): number =>
  Math.max(1, Math.ceil(sweep / Math.min(Math.PI / 4, ((STRAY * 55_500) / Math.max(radius, 1e-6)) ** (1 / 6))));

const arcOps = (
  from: Point,
  edge: { readonly to: Point; readonly centre: Point; readonly ccw: boolean },
): readonly string[] => {
  const sweep = arcSweep(from, { kind: 'arc', ...edge }) * (edge.ccw ? 1 : -1);
  const r = distance(from, edge.centre);
  const n = pieces(r, Math.abs(sweep));
  const start = subtract(from, edge.centre);
  const a0 = Math.atan2(start.y, start.x);
  const handle = (4 / 3) * Math.tan(sweep / n / 4) * r;
  return Array.from({ length: n }, (_, i) => {
    const a = a0 + (sweep * i) / n;
    const b = a0 + (sweep * (i + 1)) / n;
    const p = add(edge.centre, polar(r, a));
    const q = i === n - 1 ? edge.to : add(edge.centre, polar(r, b));
    const c1 = add(p, polar(handle, a + Math.PI / 2));
    const c2 = add(q, polar(-handle, b + Math.PI / 2));
    return `${xy(c1)} ${xy(c2)} ${xy(q)} c`;
  });
};

/** A path as PDF path operators, mm; lines exact, arcs as Bézier pieces that stray less than 0.00002 mm. */
export const pathOps = (path: Path): readonly string[] => [
  `${xy(path.start)} m`,
  ...edgesOf(path).flatMap(([from, edge]) => (edge.kind === 'line' ? [`${xy(edge.to)} l`] : arcOps(from, edge))),
  ...(path.closed ? ['h'] : []),
];
