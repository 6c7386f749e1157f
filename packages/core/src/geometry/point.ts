/** A point or vector of a plane frame: right-handed, x to the right, y up, millimetres. */
export interface Point {
  readonly x: number;
  readonly y: number;
}

/** A point, or a vector, of the plane: x to the right, y up. */
export const point = (x: number, y: number): Point => ({ x, y });
/** (0, 0). */
export const origin: Point = { x: 0, y: 0 };
/** a + b. */
export const add = (a: Point, b: Point): Point => ({ x: a.x + b.x, y: a.y + b.y });
/** a − b. */
export const subtract = (a: Point, b: Point): Point => ({ x: a.x - b.x, y: a.y - b.y });
/** The vector k times as long. */
export const scale = (a: Point, k: number): Point => ({ x: a.x * k, y: a.y * k });
/** The scalar product. */
export const dot = (a: Point, b: Point): number => a.x * b.x + a.y * b.y;
/** z of a × b: positive where b lies counter-clockwise of a. */
export const cross = (a: Point, b: Point): number => a.x * b.y - a.y * b.x;
// Not Math.hypot: its guard against overflow, which no length here comes near, takes several times as long.
/** The length of a vector. */
export const norm = (a: Point): number => Math.sqrt(a.x * a.x + a.y * a.y);
/** How far two points are apart. */
export const distance = (a: Point, b: Point): number => norm(subtract(a, b));
/** Direction from +x, counter-clockwise, radians in (−π, π]. */
export const heading = (a: Point): number => Math.atan2(a.y, a.x);
/** The point at a distance from the origin in a direction, radians counter-clockwise from +x. */
export const polar = (radius: number, angle: number): Point => ({
  x: radius * Math.cos(angle),
  y: radius * Math.sin(angle),
});
/** Halfway between two points. */
export const midpoint = (a: Point, b: Point): Point => ({ x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 });

/** Mean of the points; the origin for none. */
export const centroid = (points: readonly Point[]): Point => {
  const n = Math.max(points.length, 1);
  return scale(points.reduce(add, origin), 1 / n);
};

/** Signed distance of p from the line a→b, positive to its left. */
export const distanceFromLine = (p: Point, a: Point, b: Point): number =>
  cross(subtract(b, a), subtract(p, a)) / distance(a, b);
