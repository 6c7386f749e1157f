import {
  type Circle,
  type Edge,
  type Path,
  type Point,
  add,
  circlePath,
  cross,
  distance,
  heading,
  polar,
  subtract,
} from '@fayplate/core';

const FULL = 2 * Math.PI;
const positive = (a: number): number => ((a % FULL) + FULL) % FULL;

/** The part of one circle that lies on the hull, by the direction of its outward normal, radians. */
interface Arc {
  readonly circle: Circle;
  readonly from: number;
  readonly sweep: number;
}

/**
 * Which circles a straightedge touches when it rolls once round them counter-clockwise. With its normal at angle α the
 * straightedge leaves circle i for circle j where (cⱼ − cᵢ)·u(α) = rᵢ − rⱼ, that is α = heading(cⱼ − cᵢ) − acos((rᵢ −
 * rⱼ) / |cⱼ − cᵢ|).
 */
const roll = (circles: readonly Circle[]): readonly Arc[] => {
  const start = circles.reduce((a, b) => (b.centre.x + b.radius > a.centre.x + a.radius ? b : a));
  const arcs: Arc[] = [];
  let current = start;
  let from = 0;
  for (let turned = 0; turned < FULL && arcs.length <= 2 * circles.length;) {
    let next: Circle | null = null;
    let sweep = FULL - turned;
    for (const other of circles) {
      const d = distance(other.centre, current.centre);
      const drop = current.radius - other.radius;
      if (other === current || d <= Math.abs(drop)) continue;
      const raw = positive(heading(subtract(other.centre, current.centre)) - Math.acos(drop / d) - from);
      // Just behind counts as now, so that circles in line do not send it round again.
      const ahead = raw > FULL - 1e-9 ? 0 : raw;
      const further = next !== null && Math.abs(ahead - sweep) < 1e-9 && d > distance(next.centre, current.centre);
      if (ahead < sweep - 1e-9 || further) {
        next = other;
        sweep = Math.min(ahead, sweep);
      }
    }
    arcs.push({ circle: current, from, sweep });
    if (next === null) break;
    turned += sweep;
    from = positive(from + sweep);
    current = next;
  }
  return arcs;
};

/**
 * The convex hull of circles, counter-clockwise: arcs stay arcs, joined by the lines that touch both neighbours.
 * Throws RangeError for no circles.
 */
export const hullOfCircles = (circles: readonly Circle[]): Path => {
  if (circles.length === 0) throw new RangeError('hullOfCircles: no circles');
  const distinct: Circle[] = [];
  for (const c of circles.toSorted((a, b) => b.radius - a.radius)) {
    if (!distinct.some((o) => distance(o.centre, c.centre) + c.radius <= o.radius + 1e-9)) distinct.push(c);
  }
  const arcs = roll(distinct);
  const [first] = arcs;
  if (first === undefined) throw new RangeError('hullOfCircles: a circle is not a number');
  if (arcs.length === 1) return circlePath(first.circle.centre, first.circle.radius);
  const on = (arc: Arc, angle: number) => add(arc.circle.centre, polar(arc.circle.radius, angle));
  const start = on(first, first.from);
  const edges: Edge[] = [];
  let at = start;
  const lineTo = (to: typeof start): void => {
    if (distance(at, to) > 1e-9) edges.push({ kind: 'line', to });
    at = to;
  };
  for (const arc of arcs) {
    lineTo(on(arc, arc.from));
    if (arc.sweep * arc.circle.radius > 1e-9) {
      at = on(arc, arc.from + arc.sweep);
      edges.push({ kind: 'arc', to: at, centre: arc.circle.centre, ccw: true });
    }
  }
  lineTo(start);
  return { start, edges, closed: true };
};

/**
 * Outward side is to the right of a counter-clockwise run: the line that touches both circles there, by the direction
 * of its normal.
 */
const tangent = (
  a: Circle,
  b: Circle,
): { readonly from: Point; readonly to: Point; readonly normal: number } | null => {
  const d = distance(a.centre, b.centre);
  if (d <= Math.abs(a.radius - b.radius)) return null;
  const normal = heading(subtract(b.centre, a.centre)) - Math.acos((a.radius - b.radius) / d);
  return { from: add(a.centre, polar(a.radius, normal)), to: add(b.centre, polar(b.radius, normal)), normal };
};

/** Where two lines cross, as a fraction of each; null where they run side by side. */
const crossing = (
  a: Point,
  b: Point,
  c: Point,
  d: Point,
): { readonly at: Point; readonly s: number; readonly t: number } | null => {
  const u = subtract(b, a);
  const v = subtract(d, c);
  const w = cross(u, v);
  if (Math.abs(w) < 1e-12) return null;
  const s = cross(subtract(c, a), v) / w;
  const t = cross(subtract(c, a), u) / w;
  return { at: { x: a.x + s * u.x, y: a.y + s * u.y }, s, t };
};

/**
 * An outline that goes round circles in the order given, as a belt laid outside each of them: arcs at the corners that
 * stand out, the tangents' crossing at those that stand in. A point is a circle of radius 0. Counter-clockwise.
 * One circle alone, such as a round flange, is its own outline. Null where the circles do not make one (two of them, or
 * one that swallows its neighbour).
 */
export const beltPath = (given: readonly Circle[]): Path | null => {
  const [only] = given;
  if (only !== undefined && given.length === 1) return only.radius > 0 ? circlePath(only.centre, only.radius) : null;
  const area = given.reduce((sum, c, i) => sum + cross(c.centre, (given[(i + 1) % given.length] ?? c).centre), 0);
  const circles = area < 0 ? [...given].reverse() : given;
  const n = circles.length;
  const runs = circles.map((c, i) => tangent(c, circles[(i + 1) % n] ?? c));
  if (n < 3 || area === 0 || runs.some((r) => r === null)) return null;
  const corners = circles.map((circle, i) => {
    const before = runs[(i + n - 1) % n];
    const after = runs[i];
    if (before === null || before === undefined || after === null || after === undefined) return null;
    const turn = Math.sin(after.normal - before.normal) >= 0 || Math.cos(after.normal - before.normal) < -1 + 1e-12;
    if (turn) return { circle, arrive: before.to, leave: after.from, arc: distance(before.to, after.from) > 1e-9 };
    const meet = crossing(before.from, before.to, after.from, after.to);
    if (meet === null || meet.s < 0 || meet.t > 1) return null;
    return { circle, arrive: meet.at, leave: meet.at, arc: false };
  });
  const [first] = corners;
  if (first === null || first === undefined) return null;
  const edges: Edge[] = [];
  for (const [i, corner] of corners.entries()) {
    if (corner === null) return null;
    if (i > 0) edges.push({ kind: 'line', to: corner.arrive });
    if (corner.arc) edges.push({ kind: 'arc', to: corner.leave, centre: corner.circle.centre, ccw: true });
  }
  edges.push({ kind: 'line', to: first.arrive });
  return { start: first.arrive, edges, closed: true };
};
