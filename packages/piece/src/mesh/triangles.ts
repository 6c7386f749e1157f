import type { Point } from '@fayplate/core';
import Constrainautor from '@kninnug/constrainautor';
import Delaunator from 'delaunator';
import type { Ring } from '../flat/polygon.js';

/** What a triangle of the plane lies in. */
type Region = 'outside' | 'metal' | 'letter';

/** A triangulation of the plane about a piece: no point of a ring lies on an edge but at its ends. */
interface Plane {
  readonly points: readonly Point[];
  /**
   * Counter-clockwise, with the region that it lies in and that of its neighbour over each side (from its first point
   * on).
   */
  readonly triangles: readonly {
    readonly corners: readonly [number, number, number];
    readonly region: Region;
    readonly over: readonly [Region, Region, Region];
  }[];
}

/** Places are kept to this, mm, so that what is written is what was triangulated. */
const GRAIN = 1e-6;

const turns = (p: Point, rings: readonly Ring[]): number => {
  let count = 0;
  for (const ring of rings)
    for (const [i, a] of ring.entries()) {
      const b = ring[(i + 1) % ring.length] ?? a;
      if (a.y <= p.y === b.y <= p.y) continue;
      if (a.x + ((p.y - a.y) / (b.y - a.y)) * (b.x - a.x) > p.x) count += b.y > a.y ? 1 : -1;
    }
  return count;
};

/**
 * Every ring's points once, and its sides as pairs of their numbers; four corners far outside, so that no side lies on
 * the rim of all.
 */
const gathered = (
  rings: readonly Ring[],
): { readonly points: readonly Point[]; readonly sides: readonly (readonly [number, number])[] } => {
  const points: Point[] = [];
  const numbers = new Map<string, number>();
  const numberOf = (p: Point): number => {
    const at = { x: Math.round(p.x / GRAIN) * GRAIN, y: Math.round(p.y / GRAIN) * GRAIN };
    const key = `${at.x.toFixed(6)} ${at.y.toFixed(6)}`;
    const known = numbers.get(key);
    if (known !== undefined) return known;
    numbers.set(key, points.length);
    points.push({ x: Number(at.x.toFixed(6)), y: Number(at.y.toFixed(6)) });
    return points.length - 1;
  };
  const sides = rings.flatMap((ring) => {
    const ids = ring.map(numberOf);
    return ids.flatMap((a, i) => {
      const b = ids[(i + 1) % ids.length] ?? a;
      return a === b ? [] : [[a, b] as const];
    });
  });
  const far = 2 * Math.max(1, ...points.map((p) => Math.max(Math.abs(p.x), Math.abs(p.y))));
  points.push({ x: -far, y: -far }, { x: far, y: -far }, { x: far, y: far }, { x: -far, y: far });
  return { points, sides };
};

/**
 * Triangulates the metal of a piece and the letters in it at once (constrained Delaunay: every side of a ring is an
 * edge), so that top, bottom and the floors of the letters share their edges. `metal`: outlines counter-clockwise and
 * openings clockwise; `letters` lie in it.
 */
export const triangulated = (metal: readonly Ring[], letters: readonly Ring[]): Plane => {
  const { points, sides } = gathered([...metal, ...letters]);
  const del = new Delaunator(Float64Array.from(points.flatMap((p) => [p.x, p.y])));
  const held = new Constrainautor(del, sides);
  const count = del.triangles.length / 3;
  const at = (e: number): Point => points[del.triangles[e] ?? 0] ?? { x: 0, y: 0 };
  const regions: (Region | undefined)[] = Array.from({ length: count });
  // Triangles with no side of a ring between them lie in one region: one of them is asked.
  for (let first = 0; first < count; first++) {
    if (regions[first] !== undefined) continue;
    const [a, b, c] = [at(3 * first), at(3 * first + 1), at(3 * first + 2)];
    const middle = { x: (a.x + b.x + c.x) / 3, y: (a.y + b.y + c.y) / 3 };
    const region = turns(middle, metal) <= 0 ? 'outside' : turns(middle, letters) > 0 ? 'letter' : 'metal';
    const waiting = [first];
    regions[first] = region;
    for (let t = waiting.pop(); t !== undefined; t = waiting.pop()) {
      for (const e of [3 * t, 3 * t + 1, 3 * t + 2]) {
        const beyond = del.halfedges[e] ?? -1;
        const next = Math.floor(beyond / 3);
        if (beyond < 0 || held.isConstrained(e) || regions[next] !== undefined) continue;
        regions[next] = region;
        waiting.push(next);
      }
    }
  }
  const over = (e: number): Region => {
    const beyond = del.halfedges[e] ?? -1;
    return beyond < 0 ? 'outside' : (regions[Math.floor(beyond / 3)] ?? 'outside');
  };
  return {
    points,
    triangles: regions.map((region, t) => {
      const [e, f, g] = [3 * t, 3 * t + 1, 3 * t + 2];
      const [i, j, k] = [del.triangles[e] ?? 0, del.triangles[f] ?? 0, del.triangles[g] ?? 0];
      const [a, b, c] = [at(e), at(f), at(g)];
      const left = (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x) > 0;
      return {
        region: region ?? 'outside',
        corners: left ? [i, j, k] : [i, k, j],
        over: left ? [over(e), over(f), over(g)] : [over(g), over(f), over(e)],
      };
    }),
  };
};
