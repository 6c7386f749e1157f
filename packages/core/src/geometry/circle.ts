import { type Point, centroid, distance, midpoint } from './point.js';

/** Centre and radius, in any one unit. */
export interface Circle {
  readonly centre: Point;
  readonly radius: number;
}

/** The circle through three points; null where they lie on a line. */
export const circumcircle = (a: Point, b: Point, c: Point): Circle | null => {
  const bx = b.x - a.x;
  const by = b.y - a.y;
  const cx = c.x - a.x;
  const cy = c.y - a.y;
  const d = 2 * (bx * cy - by * cx);
  if (Math.abs(d) < 1e-12 * (bx * bx + by * by + cx * cx + cy * cy)) return null;
  const b2 = bx * bx + by * by;
  const c2 = cx * cx + cy * cy;
  const u = { x: (cy * b2 - by * c2) / d, y: (bx * c2 - cx * b2) / d };
  return { centre: { x: a.x + u.x, y: a.y + u.y }, radius: Math.hypot(u.x, u.y) };
};

/**
 * Algebraic circle (least Σ(x²+y²+Dx+Ey+F)²): quick and unbiased enough to start from, radius too small on short arcs.
 */
export const kasaCircle = (points: readonly Point[]): Circle | null => {
  const m = centroid(points);
  let uu = 0;
  let uv = 0;
  let vv = 0;
  let uz = 0;
  let vz = 0;
  let z = 0;
  for (const p of points) {
    const u = p.x - m.x;
    const v = p.y - m.y;
    const q = u * u + v * v;
    uu += u * u;
    uv += u * v;
    vv += v * v;
    uz += u * q;
    vz += v * q;
    z += q;
  }
  const d = uu * vv - uv * uv;
  if (points.length < 3 || d <= 1e-12 * (uu + vv) ** 2) return null;
  const cx = (uz * vv - vz * uv) / (2 * d);
  const cy = (vz * uu - uz * uv) / (2 * d);
  return {
    centre: { x: m.x + cx, y: m.y + cy },
    radius: Math.sqrt(cx * cx + cy * cy + z / points.length),
  };
};

/**
 * Geometric circle: least Σ(distance from centre − r)², by Gauss–Newton with step halving from the algebraic circle.
 * Gander, Golub & Strebel 1994, BIT 34, 558–578. Null for fewer than three points or points on a line.
 */
export const fitCircle = (points: readonly Point[]): Circle | null => {
  const start = kasaCircle(points);
  if (start === null) return null;
  const cost = (c: Point): { sum: number; r: number } => {
    const r = points.reduce((s, p) => s + distance(p, c), 0) / points.length;
    return { r, sum: points.reduce((s, p) => s + (distance(p, c) - r) ** 2, 0) };
  };
  let centre = start.centre;
  let now = cost(centre);
  for (let turn = 0; turn < 200; turn++) {
    const rows = points.map((p) => {
      const d = Math.max(distance(p, centre), 1e-300);
      return { x: (centre.x - p.x) / d, y: (centre.y - p.y) / d, e: d - now.r };
    });
    const mx = rows.reduce((s, q) => s + q.x, 0) / rows.length;
    const my = rows.reduce((s, q) => s + q.y, 0) / rows.length;
    let xx = 0;
    let xy = 0;
    let yy = 0;
    let xe = 0;
    let ye = 0;
    for (const q of rows) {
      const x = q.x - mx;
      const y = q.y - my;
      xx += x * x;
      xy += x * y;
      yy += y * y;
      xe += x * q.e;
      ye += y * q.e;
    }
    const det = xx * yy - xy * xy;
    if (det <= 0) break;
    const dx = (-xe * yy + ye * xy) / det;
    const dy = (-ye * xx + xe * xy) / det;
    let k = 1;
    let next = centre;
    let then = now;
    do {
      next = { x: centre.x + k * dx, y: centre.y + k * dy };
      then = cost(next);
      k /= 2;
    } while (then.sum > now.sum && k > 1e-9);
    if (then.sum > now.sum) break;
    centre = next;
    now = then;
    if (Math.hypot(dx, dy) * k < 1e-14 * (now.r + Math.hypot(centre.x, centre.y))) break;
  }
  return { centre, radius: now.r };
};

/** Where two circles cross: none, or two points (the same twice where they touch), first the one left of a→b. */
export const intersectCircles = (a: Circle, b: Circle): readonly [Point, Point] | null => {
  const d = distance(a.centre, b.centre);
  if (d === 0) return null;
  const along = (d * d + a.radius * a.radius - b.radius * b.radius) / (2 * d);
  const h2 = a.radius * a.radius - along * along;
  if (h2 < 0) return null;
  const h = Math.sqrt(h2);
  const ux = (b.centre.x - a.centre.x) / d;
  const uy = (b.centre.y - a.centre.y) / d;
  const f = { x: a.centre.x + along * ux, y: a.centre.y + along * uy };
  return [
    { x: f.x - h * uy, y: f.y + h * ux },
    { x: f.x + h * uy, y: f.y - h * ux },
  ];
};

const holds = (c: Circle, p: Point): boolean => distance(c.centre, p) <= c.radius * (1 + 1e-12) + 1e-12;
const across = (a: Point, b: Point): Circle => ({ centre: midpoint(a, b), radius: distance(a, b) / 2 });

/**
 * The smallest circle that holds every point (Sylvester 1857; incremental form after Welzl 1991).
 * The points are taken in the order given, so the same list gives the same bytes. Null for no points.
 */
export const smallestCircle = (points: readonly Point[]): Circle | null => {
  const [first] = points;
  if (first === undefined) return null;
  let c: Circle = { centre: first, radius: 0 };
  for (const [i, p] of points.entries()) {
    if (holds(c, p)) continue;
    c = { centre: p, radius: 0 };
    for (const [j, q] of points.slice(0, i).entries()) {
      if (holds(c, q)) continue;
      c = across(p, q);
      for (const r of points.slice(0, j)) {
        if (!holds(c, r)) c = circumcircle(p, q, r) ?? c;
      }
    }
  }
  return c;
};
