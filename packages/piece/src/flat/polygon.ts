import { type Path, type Point, arcSweep, distance, edgesOf, polygonPath } from '@fayplate/core';
import polygonClipping from 'polygon-clipping';

/** A closed run of points, the closing one not repeated; outlines counter-clockwise, openings clockwise. */
export type Ring = readonly Point[];

/**
 * Radius of the points between an arc's ends so that the chords enclose the arc's own area: the polygon lies half
 * outside the arc and half inside, and a hole is neither smaller nor larger than asked. `n` chords over `sweep`,
 * radians.
 */
const fairRadius = (radius: number, sweep: number, n: number): number => {
  if (n < 2) return radius;
  const s = Math.sin(sweep / n);
  // (n − 2) ρ² s + 2 r ρ s = r² · sweep: the two chords at the ends go from r to ρ.
  const [a, b, c] = [(n - 2) * s, 2 * radius * s, -radius * radius * sweep];
  return a === 0 ? -c / b : (-b + Math.sqrt(b * b - 4 * a * c)) / (2 * a);
};

/**
 * Points along a closed path. A full circle is a regular polygon of the circle's own area; no chord strays more than
 * `tolerance` mm.
 */
export const ringOf = (path: Path, tolerance = 0.003): Ring => {
  const round = circleOf(path);
  if (round !== null) {
    const n = chords(round.radius, 2 * Math.PI, tolerance);
    const rho = round.radius * Math.sqrt((2 * Math.PI) / n / Math.sin((2 * Math.PI) / n));
    const points = Array.from({ length: n }, (_, i) => {
      const a = (2 * Math.PI * i) / n;
      return { x: round.centre.x + rho * Math.cos(a), y: round.centre.y + rho * Math.sin(a) };
    });
    return round.ccw ? points : points.toReversed();
  }
  const out: Point[] = [path.start];
  for (const [from, edge] of edgesOf(path)) {
    if (edge.kind === 'arc') {
      const r = distance(from, edge.centre);
      const sweep = arcSweep(from, edge);
      const n = chords(r, sweep, tolerance);
      const rho = fairRadius(r, sweep, n);
      const a = Math.atan2(from.y - edge.centre.y, from.x - edge.centre.x);
      for (let i = 1; i < n; i++) {
        const t = a + ((edge.ccw ? 1 : -1) * sweep * i) / n;
        out.push({ x: edge.centre.x + rho * Math.cos(t), y: edge.centre.y + rho * Math.sin(t) });
      }
    }
    out.push(edge.to);
  }
  const [first] = out;
  const last = out.at(-1);
  if (first !== undefined && last !== undefined && out.length > 1 && distance(first, last) < 1e-9) out.pop();
  return out;
};

/** As many chords as keep within the tolerance, an even number for the two halves of a circle. */
const chords = (radius: number, sweep: number, tolerance: number): number => {
  const most = radius <= tolerance ? Math.PI / 2 : 2 * Math.acos(1 - tolerance / radius);
  return Math.max(2, 2 * Math.ceil(sweep / most / 2));
};

/** The circle that a closed path of arcs about one centre is; null where it is none. */
const circleOf = (path: Path): { readonly centre: Point; readonly radius: number; readonly ccw: boolean } | null => {
  const [first] = path.edges;
  if (!path.closed || first?.kind !== 'arc') return null;
  const { centre, ccw } = first;
  const sweep = edgesOf(path).reduce(
    (sum, [from, e]) =>
      sum + (e.kind === 'arc' && e.ccw === ccw && distance(e.centre, centre) < 1e-9 ? arcSweep(from, e) : NaN),
    0,
  );
  return Math.abs(sweep - 2 * Math.PI) < 1e-9 ? { centre, radius: distance(path.start, centre), ccw } : null;
};

/** Enclosed area, mm²: positive counter-clockwise. */
export const ringArea = (ring: Ring): number =>
  ring.reduce((sum, p, i) => {
    const q = ring[(i + 1) % ring.length] ?? p;
    return sum + (p.x * q.y - p.y * q.x) / 2;
  }, 0);

/** A ring as the library takes it: a polygon without openings. */
const polygon = (ring: Ring): [number, number][][] => [ring.map((p): [number, number] => [p.x, p.y])];

/** Outlines counter-clockwise, openings clockwise, the closing point left off. */
const ringsOf = (regions: readonly (readonly (readonly (readonly [number, number])[])[])[]): readonly Ring[] =>
  regions.flatMap((region) =>
    region.map((closed, i) => {
      const ring = closed.slice(0, -1).map(([x, y]) => ({ x, y }));
      return ringArea(ring) > 0 === (i === 0) ? ring : ring.toReversed();
    }),
  );

/** Whether a point lies in a ring. */
export const isIn = (p: Point, ring: Ring): boolean => {
  let odd = false;
  for (const [i, a] of ring.entries()) {
    const b = ring[(i + 1) % ring.length] ?? a;
    if (a.y > p.y !== b.y > p.y && p.x < ((b.x - a.x) * (p.y - a.y)) / (b.y - a.y) + a.x) odd = !odd;
  }
  return odd;
};

/**
 * One glyph from its contours: what is inked runs as the largest does, its counters the other way; strokes may overlap.
 */
export const inked = (contours: readonly Ring[]): readonly Ring[] => {
  const largest = contours.reduce((a, r) => (Math.abs(ringArea(r)) > Math.abs(a) ? ringArea(r) : a), 0);
  const inks = contours.filter((r) => ringArea(r) * largest > 0);
  const counters = contours.filter((r) => ringArea(r) * largest < 0);
  const [first, ...rest] = inks.map((ink) => {
    const own = counters.filter((c) => c[0] !== undefined && isIn(c[0], ink));
    return polygonClipping.difference(polygon(ink), ...own.map(polygon));
  });
  return first === undefined ? [] : ringsOf(polygonClipping.union(first, ...rest));
};

/** What lies in the first ring and in none of the others. */
export const without = (from: Ring, cuts: readonly Ring[]): readonly Ring[] =>
  ringsOf(polygonClipping.difference(polygon(from), ...cuts.map(polygon)));

/** A ring as a closed path of straight lines. */
export const pathOfRing = (ring: Ring): Path => polygonPath(ring);
