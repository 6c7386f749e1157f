import { type Circle, type Edge, type Path, circlePath, distance, heading, polar, subtract, add } from '@fayplate/core';

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
 * straightedge leaves circle i for circle j where (cⱼ − cᵢ)·u(α) = rᵢ − rⱼ, that is α = heading(cⱼ − cᵢ) − acos((rᵢ − rⱼ) / |cⱼ − cᵢ|).
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
