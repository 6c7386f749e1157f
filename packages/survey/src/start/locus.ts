import {
  type Circle,
  type Point,
  add,
  cross,
  distance,
  dot,
  intersectCircles,
  norm,
  scale,
  subtract,
} from '@fayplate/core';

/** Where one reading lets a centre lie, the other centres of the reading being known. */
export type Locus =
  | { readonly kind: 'circle'; readonly circle: Circle }
  | Line
  | { readonly kind: 'point'; readonly point: Point };

/** A line through `through` along the unit vector `along`. */
export interface Line {
  readonly kind: 'line';
  readonly through: Point;
  readonly along: Point;
}

export const circleAbout = (centre: Point, radius: number): Locus => ({ kind: 'circle', circle: { centre, radius } });

/** The line through two points; null where they coincide. */
export const lineThrough = (a: Point, b: Point): Line | null => {
  const d = distance(a, b);
  return d < 1e-9 ? null : { kind: 'line', through: a, along: scale(subtract(b, a), 1 / d) };
};

export const leftOf = (v: Point): Point => ({ x: -v.y, y: v.x });

/** Foot of the shortest way from `p` to the locus. */
export const nearestOn = (locus: Locus, p: Point): Point => {
  if (locus.kind === 'point') return locus.point;
  if (locus.kind === 'line')
    return add(locus.through, scale(locus.along, dot(locus.along, subtract(p, locus.through))));
  const { centre, radius } = locus.circle;
  const v = subtract(p, centre);
  const d = norm(v);
  return d < 1e-12 ? { x: centre.x + radius, y: centre.y } : add(centre, scale(v, radius / d));
};

/** Mirror image of a point in a line. */
export const mirroredIn = (line: Line, p: Point): Point => {
  const foot = nearestOn(line, p);
  return { x: 2 * foot.x - p.x, y: 2 * foot.y - p.y };
};

const circleMeetsCircle = (a: Circle, b: Circle): readonly Point[] => {
  const crossing = intersectCircles(a, b);
  if (crossing !== null) return crossing;
  const d = distance(a.centre, b.centre);
  if (d < 1e-9) return [];
  // They miss each other by the error of the readings: halfway between their nearest points.
  const u = scale(subtract(b.centre, a.centre), 1 / d);
  const outside = d >= a.radius + b.radius;
  const sign = outside || a.radius >= b.radius ? 1 : -1;
  const p = add(a.centre, scale(u, sign * a.radius));
  const q = add(b.centre, scale(u, outside ? -b.radius : sign * b.radius));
  return [scale(add(p, q), 0.5)];
};

const lineMeetsCircle = (line: Line, circle: Circle): readonly Point[] => {
  const foot = nearestOn(line, circle.centre);
  const half2 = circle.radius ** 2 - distance(foot, circle.centre) ** 2;
  if (half2 <= 0) return [foot];
  const half = scale(line.along, Math.sqrt(half2));
  return [add(foot, half), subtract(foot, half)];
};

const lineMeetsLine = (a: Line, b: Line): readonly Point[] => {
  const det = cross(a.along, b.along);
  if (Math.abs(det) < 1e-6) return [];
  return [add(a.through, scale(a.along, cross(subtract(b.through, a.through), b.along) / det))];
};

/** Where two loci meet; where they just miss, the point between them; empty where they are parallel or concentric. */
export const meet = (a: Locus, b: Locus): readonly Point[] => {
  if (a.kind === 'point') return [a.point];
  if (b.kind === 'point') return [b.point];
  if (a.kind === 'circle' && b.kind === 'circle') return circleMeetsCircle(a.circle, b.circle);
  if (a.kind === 'line' && b.kind === 'line') return lineMeetsLine(a, b);
  if (a.kind === 'line' && b.kind === 'circle') return lineMeetsCircle(a, b.circle);
  if (a.kind === 'circle' && b.kind === 'line') return lineMeetsCircle(b, a.circle);
  return [];
};

/** Sine of the angle at which the loci cross at `p`: 0 where they touch, 1 where square; 1 for a point. */
export const crossing = (a: Locus, b: Locus, p: Point): number => {
  const tangent = (l: Locus): Point | null => {
    if (l.kind === 'point') return null;
    if (l.kind === 'line') return l.along;
    const v = subtract(p, l.circle.centre);
    const d = norm(v);
    return d < 1e-12 ? null : scale(leftOf(v), 1 / d);
  };
  const [s, t] = [tangent(a), tangent(b)];
  return s === null || t === null ? 1 : Math.abs(cross(s, t));
};
