import type { Box, Point } from '@fayplate/core';
import { boxOf } from '@fayplate/core';
import { type Body, type Chain, type Spot, levelsOf } from './solid.js';

const { sqrt } = Math;
const ACROSS = sqrt(3) / 2;

/**
 * Isometric axes (ISO 5456-3:1996, from memory): y upright, x to the right and up, z, which is the shaft, to the right
 * and down, both at 30°; lengths along all three are true. The eye lies toward (−1, 1, 1).
 */
export const project = (p: Spot): Point => ({ x: ACROSS * (p.x + p.z), y: p.y + (p.x - p.z) / 2 });

/** So far from an edge toward the eye nothing counts as before it, mm. */
const CLEAR = 1e-3;

/** Squares along the longer side of the drawing. */
const CELLS = 160;

interface Shade {
  readonly levels: readonly number[];
  readonly prisms: readonly {
    readonly from: number;
    readonly to: number;
    readonly cut: boolean;
    /** Of each point of its ring x + y, which stays the same along a line of sight, and y, which rises along it. */
    readonly sums: Float64Array;
    readonly heights: Float64Array;
    /** Least and greatest of both. */
    readonly span: readonly [number, number];
    readonly rise: readonly [number, number];
  }[];
  readonly box: Box;
}

const shadeOf = (body: Body): Shade => ({
  levels: levelsOf(body),
  prisms: body.map(({ ring, from, to, cut }) => {
    const sums = Float64Array.from(ring.points, (p) => p.x + p.y);
    return {
      from,
      to,
      cut,
      sums,
      heights: Float64Array.from(ring.points, (p) => p.y),
      span: [Math.min(...sums), Math.max(...sums)],
      rise: [ring.box.bottom, ring.box.top],
    };
  }),
  box: boxOf(body.flatMap((p) => p.ring.points.flatMap((q) => [p.from, p.to].map((z) => project({ ...q, z }))))),
});

/**
 * How far along the line of sight from p it crosses a ring, counted by its rise; asked thousands of times a picture.
 */
const crossingsOf = (sums: Float64Array, heights: Float64Array, p: Point): readonly number[] => {
  const sum = p.x + p.y;
  const out: number[] = [];
  const n = sums.length;
  let s = sums[n - 1]! - sum;
  for (let i = 0, j = n - 1; i < n; j = i++) {
    const t = sums[i]! - sum;
    if (s > 0 !== t > 0) out.push(heights[j]! + (s / (s - t)) * (heights[i]! - heights[j]!) - p.y);
    s = t;
  }
  return out;
};

/** Whether metal of a body lies between a place and the eye. */
const covers = ({ levels, prisms }: Shade, p: Spot): boolean => {
  const sum = p.x + p.y;
  const highest = p.y + (levels.at(-1) ?? 0) - p.z;
  const hit: { readonly prism: Shade['prisms'][number]; readonly at: readonly number[] }[] = [];
  let metal = false;
  for (const prism of prisms) {
    // A ring that lies wholly behind, or wholly beyond where the line leaves the body, is crossed as often in as out.
    if (prism.to <= p.z || sum < prism.span[0] || sum > prism.span[1]) continue;
    if (prism.rise[1] < p.y || prism.rise[0] > highest) continue;
    const at = crossingsOf(prism.sums, prism.heights, p);
    if (at.length === 0) continue;
    hit.push({ prism, at });
    metal ||= !prism.cut;
  }
  if (!metal) return false;
  for (const [k, low] of levels.entries()) {
    const high = levels[k + 1];
    if (high === undefined || high - p.z <= CLEAR) continue;
    const [begin, end] = [Math.max(CLEAR, low - p.z), high - p.z];
    const live = hit.filter(({ prism }) => prism.from < high && prism.to > low);
    if (live.every(({ prism }) => prism.cut)) continue;
    const stops = [begin, ...live.flatMap((l) => l.at.filter((t) => t > begin && t < end)), end].sort((m, n) => m - n);
    for (const [i, from] of stops.entries()) {
      const to = stops[i + 1];
      if (to === undefined || to - from < 1e-7) continue;
      const t = (from + to) / 2;
      let [within, open] = [false, false];
      for (const { prism, at } of live) {
        let odd = false;
        for (const u of at) if (u > t) odd = !odd;
        if (odd && prism.cut) open = true;
        else if (odd) within = true;
      }
      if (within && !open) return true;
    }
  }
  return false;
};

/** What of a chain the eye sees, as runs on paper; the indices tell from which of its places to which a run goes. */
type Seen = readonly (readonly Point[])[];

/** Whether a place is hidden from the eye by any of the bodies. */
export const hiderOf = (bodies: readonly Body[]): ((p: Spot) => boolean) => {
  const shades = bodies.map(shadeOf);
  return (p) => {
    const { x, y } = project(p);
    for (const s of shades)
      if (x >= s.box.left && x <= s.box.right && y >= s.box.bottom && y <= s.box.top && covers(s, p)) return true;
    return false;
  };
};

/** Edges on paper by the square of it that they run through, so that few are asked where they cross a line. */
const gridOf = (edges: readonly Chain[]): ((a: Point, b: Point) => readonly number[]) => {
  const lines = edges.flatMap((chain) => {
    const flat = chain.map(project);
    return flat.slice(1).map((b, i) => [flat[i] ?? b, b] as const);
  });
  const all = boxOf([{ x: 0, y: 0 }, ...lines.flat()]);
  const cell = Math.max(all.right - all.left, all.top - all.bottom, 1) / CELLS;
  const cells = new Map<number, number[]>();
  const eachCell = (a: Point, b: Point, visit: (key: number) => void): void => {
    const column = (x: number): number => Math.floor((x - all.left) / cell);
    const row = (y: number): number => Math.floor((y - all.bottom) / cell);
    for (let i = column(Math.min(a.x, b.x)); i <= column(Math.max(a.x, b.x)); i++)
      for (let j = row(Math.min(a.y, b.y)); j <= row(Math.max(a.y, b.y)); j++) visit(i * 4096 + j);
  };
  for (const [i, [a, b]] of lines.entries())
    eachCell(a, b, (key) => {
      const own = cells.get(key);
      if (own === undefined) cells.set(key, [i]);
      else own.push(i);
    });
  const asked = new Int32Array(lines.length);
  let question = 0;
  return (a, b) => {
    const out: number[] = [];
    const [ux, uy] = [b.x - a.x, b.y - a.y];
    question++;
    eachCell(a, b, (key) => {
      for (const i of cells.get(key) ?? []) {
        const line = lines[i];
        if (line === undefined || asked[i] === question) continue;
        asked[i] = question;
        const [c, d] = line;
        const [vx, vy] = [d.x - c.x, d.y - c.y];
        const w = ux * vy - uy * vx;
        if (Math.abs(w) < 1e-12) continue;
        const t = ((c.x - a.x) * vy - (c.y - a.y) * vx) / w;
        const u = ((c.x - a.x) * uy - (c.y - a.y) * ux) / w;
        if (t > 1e-9 && t < 1 - 1e-9 && u > -1e-9 && u < 1 + 1e-9) out.push(t);
      }
    });
    return out.sort((m, n) => m - n);
  };
};

/**
 * What the eye sees of some chains before and among bodies, as runs on paper. Along a line that can change only where
 * it crosses an edge of theirs on paper: each stretch between two crossings is asked once, in its middle. `isHidden`
 * and `edges`: whether the bodies hide a place, and every edge of theirs.
 */
export const seenOf = (
  isHidden: (p: Spot) => boolean,
  edges: readonly Chain[],
  chains: readonly Chain[],
): readonly Seen[] => {
  const crossings = gridOf(edges);
  return chains.map((chain) => {
    const runs: Point[][] = [];
    let open = false;
    for (const [i, b] of chain.slice(1).entries()) {
      const a = chain[i] ?? b;
      const [p, q] = [project(a), project(b)];
      const stops = [0, ...crossings(p, q), 1];
      for (const [k, from] of stops.entries()) {
        const to = stops[k + 1];
        if (to === undefined || to - from < 1e-9) continue;
        const t = (from + to) / 2;
        const at = (u: number): Point => ({ x: p.x + u * (q.x - p.x), y: p.y + u * (q.y - p.y) });
        if (isHidden({ x: a.x + t * (b.x - a.x), y: a.y + t * (b.y - a.y), z: a.z + t * (b.z - a.z) })) {
          open = false;
          continue;
        }
        const run = runs.at(-1);
        if (!open || run === undefined) runs.push([at(from), at(to)]);
        else if (from > 0) run[run.length - 1] = at(to);
        else run.push(at(to));
        open = true;
      }
    }
    return runs;
  });
};
