import {
  type Curve,
  type Edge,
  type Path,
  type Point,
  arcSweep,
  crossings,
  distance,
  edgesOf,
  midpoint,
  scale,
  signedArea,
  subtract,
} from '@fayplate/core';
import { depthInside } from './inside.js';

/** A place on a closed path: on which of its edges, and how much of that lies before it, 0 to 1. */
interface Spot {
  readonly at: Point;
  readonly edge: number;
  readonly part: number;
}

const curveOf = (from: Point, edge: Edge): Curve => {
  if (edge.kind === 'arc') return { kind: 'circle', centre: edge.centre, radius: distance(from, edge.centre) };
  return { kind: 'line', at: from, along: scale(subtract(edge.to, from), 1 / distance(from, edge.to)) };
};

/** How much of an edge lies before a place on its curve; null where the place lies beyond its ends. */
const partOf = (at: Point, from: Point, edge: Edge): number | null => {
  const NEAR = 1e-9;
  if (distance(at, from) < NEAR) return 0;
  if (distance(at, edge.to) < NEAR) return 1;
  if (edge.kind === 'arc') {
    const part = arcSweep(from, { ...edge, to: at }) / arcSweep(from, edge);
    return part <= 1 ? part : null;
  }
  const along = subtract(edge.to, from);
  const part = ((at.x - from.x) * along.x + (at.y - from.y) * along.y) / (along.x ** 2 + along.y ** 2);
  return part >= 0 && part <= 1 ? part : null;
};

/** Where two closed paths cross, each crossing once, as a place on either. */
const meetings = (a: Path, b: Path): readonly { readonly onA: Spot; readonly onB: Spot }[] => {
  const found: { readonly onA: Spot; readonly onB: Spot }[] = [];
  for (const [i, [from, edge]] of edgesOf(a).entries()) {
    if (distance(from, edge.to) < 1e-9 && edge.kind === 'line') continue;
    for (const [j, [start, side]] of edgesOf(b).entries()) {
      if (distance(start, side.to) < 1e-9 && side.kind === 'line') continue;
      for (const at of crossings(curveOf(from, edge), curveOf(start, side))) {
        const [p, q] = [partOf(at, from, edge), partOf(at, start, side)];
        if (p === null || q === null || found.some((f) => distance(f.onA.at, at) < 1e-7)) continue;
        found.push({ onA: { at, edge: i, part: p }, onB: { at, edge: j, part: q } });
      }
    }
  }
  return found;
};

/** The edges of a closed path from one place on it to another, along the path. */
const between = (path: Path, from: Spot, to: Spot): readonly Edge[] => {
  const n = path.edges.length;
  const ahead = (to.edge - from.edge + n) % n;
  const steps = ahead === 0 && to.part <= from.part ? n : ahead;
  const out: Edge[] = [];
  let at = from.at;
  for (let k = 0; k <= steps; k++) {
    const edge = path.edges[(from.edge + k) % n];
    if (edge === undefined) continue;
    const next = k === steps ? to.at : edge.to;
    if (distance(at, next) < 1e-9) continue;
    out.push({ ...edge, to: next });
    at = next;
  }
  return out;
};

/** The same edges the other way, from where they end to where they begin. */
const backward = (start: Point, edges: readonly Edge[]): readonly Edge[] =>
  edges
    .map((e, i) => ({ ...e, to: edges[i - 1]?.to ?? start, ...(e.kind === 'arc' ? { ccw: !e.ccw } : {}) }))
    .toReversed();

/**
 * A bite out of a closed path: from `start` along `rest` to `end`, then along `mouth`, which is taken away, or along
 * `inner`, which is cut, back to `start`.
 */
export interface Bite {
  readonly start: Point;
  readonly end: Point;
  readonly rest: readonly Edge[];
  readonly mouth: readonly Edge[];
  readonly inner: readonly Edge[];
}

const middleOf = (from: Point, edge: Edge): Point => {
  if (edge.kind === 'line') return midpoint(from, edge.to);
  const turn = ((edge.ccw ? 1 : -1) * arcSweep(from, edge)) / 2;
  const u = subtract(from, edge.centre);
  return {
    x: edge.centre.x + u.x * Math.cos(turn) - u.y * Math.sin(turn),
    y: edge.centre.y + u.x * Math.sin(turn) + u.y * Math.cos(turn),
  };
};

/**
 * What a convex area, both paths counter-clockwise, bites out of another at its edge; else how often the two edges
 * cross, which for a bite is twice.
 */
export const biteOf = (outline: Path, area: Path): Bite | number => {
  const met = meetings(outline, area);
  const [p, q] = met;
  if (met.length !== 2 || p === undefined || q === undefined) return met.length;
  const [first = null] = between(outline, p.onA, q.onA);
  if (first === null) return 0;
  // The run that lies outside the area stays.
  const [from, to] = depthInside(middleOf(p.onA.at, first), area) < 0 ? [p, q] : [q, p];
  const inside = between(area, from.onB, to.onB);
  return {
    start: from.onA.at,
    end: to.onA.at,
    rest: between(outline, from.onA, to.onA),
    mouth: between(outline, to.onA, from.onA),
    inner: backward(from.onA.at, inside),
  };
};

/** What is left of a path when the bite is taken. */
export const bitten = ({ start, rest, inner }: Bite): Path => ({ start, edges: [...rest, ...inner], closed: true });

/** The bite itself, counter-clockwise. */
export const mouthful = ({ end, mouth, inner }: Bite): Path => ({
  start: end,
  edges: [...mouth, ...backward(end, inner)],
  closed: true,
});

/** Area of a bite, mm². */
export const biteArea = (bite: Bite): number => signedArea(mouthful(bite));
