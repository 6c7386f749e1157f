import { type Box, type Point, add, distance, polar } from '@fayplate/core';
import {
  type Field,
  type Obstacle,
  type Shape,
  circle,
  crossHair,
  group,
  pens,
  polygon,
  text,
} from '@fayplate/drawing';
import type { TemplateHole } from '../template/types.js';
import { type Grid, windowOf } from './grid.js';

const corners = (n: number, radius: number, first: number, at: Point): readonly Point[] =>
  Array.from({ length: n }, (_, i) => add(at, polar(radius, first + (i * 2 * Math.PI) / n)));

/**
 * Figures that are their own mirror image in both axes, so that half of one never passes for half of another; tallest
 * 2·r.
 */
const figures: readonly ((at: Point, r: number) => readonly Shape[])[] = [
  (at, r) => [circle('mark', at, r, pens.narrow)],
  (at, r) => [polygon('mark', corners(4, r * 1.25, Math.PI / 4, at), pens.narrow)],
  (at, r) => [polygon('mark', corners(4, r, 0, at), pens.narrow)],
  (at, r) => [circle('mark', at, r, pens.narrow), circle('mark', at, r * 0.6, pens.narrow)],
  (at, r) => [polygon('mark', corners(6, r, 0, at), pens.narrow)],
  (at, r) => [
    polygon('mark', corners(4, r * 1.25, Math.PI / 4, at), pens.narrow),
    polygon('mark', corners(4, r * 0.7, 0, at), pens.narrow),
  ],
  (at, r) => [polygon('mark', corners(4, r, 0, at), pens.narrow), circle('mark', at, r * 0.55, pens.narrow)],
  (at, r) => [
    polygon('mark', corners(8, r, Math.PI / 8, at), pens.narrow),
    polygon('mark', corners(8, r * 0.6, Math.PI / 8, at), pens.narrow),
  ],
];

/**
 * Registration mark number `n` (from 1): a cross-hair in one of eight figures. Centred on `at`, at most `radius` in
 * every direction.
 */
const markShapes = (n: number, at: Point, radius: number): readonly Shape[] => {
  const figure = figures[(n - 1) % figures.length];
  return [...(figure?.(at, radius * 0.75) ?? []), ...crossHair('mark', at, { open: 0, reach: radius }, pens.narrow)];
};

/** A registration mark on a join, template mm. */
export interface Mark {
  /** R1, R2, … in the order in which sheets are joined. */
  readonly id: string;
  readonly n: number;
  readonly at: Point;
  /** The join runs up the page or across it. */
  readonly along: 'up' | 'across';
}

export const markRadius = (overlap: number): number => Math.min(4, overlap / 2 - 0.5);

/** How far a mark's numbers reach beyond its figure, mm. */
const NUMBER = 5;

const about = ({ x, y }: Point, r: number): Box => ({ left: x - r, right: x + r, bottom: y - r, top: y + r });

interface Edge {
  readonly along: 'up' | 'across';
  readonly at: number;
  readonly from: number;
  readonly to: number;
}

/** Every stretch of join between two sheets, without the corners where four sheets meet. */
const edgesOf = (grid: Grid): readonly Edge[] => {
  const out: Edge[] = [];
  const bands = (
    count: number,
    joins: readonly number[],
    from: number,
    to: number,
  ): readonly (readonly [number, number])[] =>
    Array.from({ length: count }, (_, i) => [
      (joins[i - 1] ?? from - grid.overlap / 2) + grid.overlap / 2,
      (joins[i] ?? to + grid.overlap / 2) - grid.overlap / 2,
    ]);
  const { covered } = grid;
  for (const [from, to] of bands(grid.rows, grid.up.joins, covered.bottom, covered.top).toReversed())
    for (const at of grid.across.joins) out.push({ along: 'up', at, from, to });
  for (const at of grid.up.joins.toReversed())
    for (const [from, to] of bands(grid.columns, grid.across.joins, covered.left, covered.right))
      out.push({ along: 'across', at, from, to });
  return out;
};

/** Two joins whose marks stand equally far apart to within this could be laid on each other by mistake, mm. */
const UNLIKE = 1.5;

/** Spreads any number of joins over 0 … 1 with no two alike (multiples of the golden ratio). */
const spread = (k: number): number => (k * 0.618034) % 1;

/** Two marks of one join stand at least this part of it apart, so that they hold the angle. */
const NEAR = 0.4;
/** What a fault of a place weighs against moving the mark along its join, in mm of moving. */
const COST = { onHole: 400, crossed: 60, near: 45, alike: 30, numberCrossed: 8 } as const;

/**
 * The place of least cost, looked for from `w` outwards a millimetre at a time; the cost holds the way moved, so that
 * the search soon ends.
 */
const cheapest = (w: number, length: number, cost: (u: number) => number): number => {
  let best = { u: w, cost: cost(w) };
  for (let moved = 1; moved <= length && moved < best.cost; moved++)
    for (const u of [w + moved, w - moved]) {
      const c = cost(u);
      if (c < best.cost) best = { u, cost: c };
    }
  return best.u;
};

/**
 * Two marks or more on every stretch of join, near its ends; how far from them differs from stretch to stretch, so that
 * sheets that do not belong together do not fit either. A mark keeps off hole cross-hairs and, where it can, off every
 * other line.
 */
export const placeMarks = (grid: Grid, holes: readonly TemplateHole[], lines: Field): readonly Mark[] => {
  const radius = markRadius(grid.overlap);
  const out: Mark[] = [];
  const spacings: number[] = [];
  for (const [k, edge] of edgesOf(grid).entries()) {
    const length = edge.to - edge.from;
    const place = (u: number): Point =>
      edge.along === 'up' ? { x: edge.at, y: edge.from + u } : { x: edge.from + u, y: edge.at };
    const inset = radius + 3 + spread(k) * Math.max(0, Math.min(40, length / 2 - 4 * radius));
    const wanted =
      length > 300 ? [inset, length / 2 + (spread(k + 0.5) - 0.5) * 40, length - inset] : [inset, length - inset];
    let first: number | null = null;
    for (const w of wanted) {
      const apart = first;
      const cost = (u: number): number => {
        if (u < radius || u > length - radius) return Infinity;
        const at = place(u);
        const clear =
          holes.every((h) => distance(h.at, at) > h.keep + radius + NUMBER) &&
          out.every((m) => distance(m.at, at) > 3 * radius);
        const near = apart !== null && Math.abs(u - apart) < NEAR * length;
        const alike = apart !== null && spacings.some((d) => Math.abs(d - Math.abs(u - apart)) < UNLIKE);
        const crossed = lines.coversBox(about(at, radius))
          ? COST.crossed
          : lines.coversBox(about(at, radius + NUMBER))
            ? COST.numberCrossed
            : 0;
        return (
          Math.abs(u - w) + crossed + (clear ? 0 : COST.onHole) + (near ? COST.near : 0) + (alike ? COST.alike : 0)
        );
      };
      const u = cheapest(w, length, cost);
      if (first === null) first = u;
      else spacings.push(Math.abs(u - first));
      const n = out.length + 1;
      out.push({ id: `R${n}`, n, at: place(u), along: edge.along });
    }
  }
  return out;
};

/** A mark with its number on both sides of the join, so that each half still carries it. */
export const markGroup = (mark: Mark, overlap: number): Shape => {
  const radius = markRadius(overlap);
  const off = radius + 1.2;
  const { x, y } = mark.at;
  const words = String(mark.n);
  const capital = 2.4;
  const numbers =
    mark.along === 'up'
      ? [
          text('mark', { x: x - off, y: y + 1 }, words, { anchor: 'end', capital, weight: 'bold' }),
          text('mark', { x: x + off, y: y + 1 }, words, { capital, weight: 'bold' }),
        ]
      : [
          // Over the middle: beside it, a number would run out of the window where the mark stands near its edge.
          text('mark', { x, y: y + off }, words, { capital, weight: 'bold', anchor: 'middle' }),
          text('mark', { x, y: y - off - capital }, words, { capital, weight: 'bold', anchor: 'middle' }),
        ];
  // On bare ground: a line of the drawing that runs through a mark would be taken for one of its arms.
  return group(mark.id, [
    circle('mark', mark.at, radius + 0.4, null, 1),
    ...markShapes(mark.n, mark.at, radius),
    ...numbers,
  ]);
};

/** Marks with their numbers, as things to keep lettering off. */
export const markObstacles = (grid: Grid, marks: readonly Mark[]): readonly Obstacle[] => {
  const r = markRadius(grid.overlap) + NUMBER;
  return marks.map(({ at }) => ({ kind: 'box', box: about(at, r) }));
};

/** What two sheets share along each join: cut off one and covered on the other. */
export const stripObstacles = (grid: Grid): readonly Obstacle[] => {
  const { covered } = grid;
  const half = grid.overlap / 2;
  return [
    ...grid.across.joins.map((x): Obstacle => ({ kind: 'box', box: { ...covered, left: x - half, right: x + half } })),
    ...grid.up.joins.map((y): Obstacle => ({ kind: 'box', box: { ...covered, bottom: y - half, top: y + half } })),
  ];
};

/** Marks that stand whole on a sheet. */
export const marksOn = (grid: Grid, marks: readonly Mark[], row: number, column: number): readonly Mark[] => {
  const w = windowOf(grid, row, column);
  return marks.filter(({ at }) => at.x > w.left && at.x < w.right && at.y > w.bottom && at.y < w.top);
};
