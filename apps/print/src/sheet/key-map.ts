import type { Box, Point } from '@fayplate/core';
import {
  type Lettering,
  type Obstacle,
  type Shape,
  circle,
  field,
  line,
  pathShape,
  pens,
  placeLabels,
  rectangle,
  text,
} from '@fayplate/drawing';
import { type Affine, carry, carryPath, chain, scaled, shifted } from '../geometry/affine.js';
import { edgeObstacles } from '../template/marks.js';
import type { Template } from '../template/types.js';
import { type Grid, windowOf } from '../tiles/grid.js';
import type { Mark } from '../tiles/marks.js';
import { sheetName } from './join-lines.js';

/** The inner box in the middle of the outer one, made smaller where it must be. */
const fit = (inner: Box, outer: Box): { readonly place: Affine; readonly k: number } => {
  const k = Math.min(
    1,
    (outer.right - outer.left) / (inner.right - inner.left),
    (outer.top - outer.bottom) / (inner.top - inner.bottom),
  );
  const centre = { x: (inner.left + inner.right) / 2, y: (inner.bottom + inner.top) / 2 };
  const to = { x: (outer.left + outer.right) / 2, y: (outer.bottom + outer.top) / 2 };
  return { k, place: chain(chain(shifted(-centre.x, -centre.y), scaled(k)), shifted(to.x, to.y)) };
};

/** What one sheet adds to the whole once it is cut and joined, page mm. */
const cellOf = (grid: Grid, row: number, column: number, place: Affine): Box => {
  const w = windowOf(grid, row, column);
  const half = grid.overlap / 2;
  const a = carry(place, { x: w.left + (column > 0 ? half : 0), y: w.bottom + (row < grid.rows - 1 ? half : 0) });
  const b = carry(place, { x: w.right - (column < grid.columns - 1 ? half : 0), y: w.top - (row > 0 ? half : 0) });
  return { left: a.x, bottom: a.y, right: b.x, top: b.y };
};

const cellsOf = (grid: Grid, place: Affine) =>
  Array.from({ length: grid.rows * grid.columns }, (_, i) => {
    const row = Math.floor(i / grid.columns);
    const column = i % grid.columns;
    return { name: sheetName(row, column), box: cellOf(grid, row, column, place) };
  });

/** A sheet's number stands in the first of its corners that nothing else needs. */
const numberBoxes = (cell: Box, width: number, capital: number): readonly Box[] => {
  const g = 1.2;
  const at = (left: number, bottom: number): Box => ({ left, bottom, right: left + width, top: bottom + capital });
  return [
    at(cell.left + g, cell.top - g - capital),
    at(cell.right - g - width, cell.top - g - capital),
    at(cell.left + g, cell.bottom + g),
    at(cell.right - g - width, cell.bottom + g),
    at((cell.left + cell.right - width) / 2, cell.top - g - capital),
  ];
};

const boxEdges = (b: Box): readonly Obstacle[] => {
  const p: readonly Point[] = [
    { x: b.left, y: b.bottom },
    { x: b.right, y: b.bottom },
    { x: b.right, y: b.top },
    { x: b.left, y: b.top },
  ];
  return p.map((from, i) => ({ kind: 'segment', segment: { from, to: p[(i + 1) % 4] ?? from } }));
};

/** The whole drawing made small: outlines, holes with their names, sheets with their numbers, marks as dots. */
export const mapShapes = (
  template: Template,
  grid: Grid,
  marks: readonly Mark[],
  room: Box,
  lettering: Lettering,
): readonly Shape[] => {
  const { place, k } = fit(grid.covered, room);
  const outlines = template.outlines.map((path) => carryPath(place, path));
  const holes = template.labels
    .filter((l) => l.short !== null)
    .map((l) => ({ ...l, at: carry(place, l.centre), r: Math.max(0.4, l.radius * k) }));
  const edgeOf = (l: (typeof holes)[number]): Shape =>
    l.edge === undefined
      ? circle('note', l.at, l.r, pens.hair)
      : pathShape('note', carryPath(place, l.edge), pens.hair);
  const cells = cellsOf(grid, place);
  const drawn: readonly Obstacle[] = [
    ...outlines.flatMap(edgeObstacles),
    ...holes.flatMap((h): readonly Obstacle[] =>
      h.edge === undefined
        ? [{ kind: 'circle', circle: { centre: h.at, radius: h.r } }]
        : edgeObstacles(carryPath(place, h.edge)),
    ),
  ];
  const big = Math.min(...cells.map((c) => c.box.right - c.box.left)) > 14 ? 2.8 : 1.5;
  const taken = field(drawn);
  const numbers = cells.map((c) => {
    const boxes = numberBoxes(c.box, lettering.width(c.name, big, 'bold'), big);
    const box =
      boxes.find(
        (b) => !taken.coversBox({ left: b.left - 0.6, right: b.right + 0.6, bottom: b.bottom - 0.6, top: b.top + 0.6 }),
      ) ??
      boxes[0] ??
      c.box;
    return { name: c.name, box };
  });
  const capital = holes.length > 60 ? 1.4 : 1.9;
  const names = placeLabels(
    holes.map((h) => ({
      id: h.id,
      centre: h.at,
      radius: h.r,
      reach: 0,
      width: lettering.width(h.short ?? '', capital, 'regular'),
      height: capital,
    })),
    [
      ...outlines.flatMap(edgeObstacles),
      ...cells.flatMap((c) => boxEdges(c.box)),
      ...numbers.map((n): Obstacle => ({ kind: 'box', box: n.box })),
    ],
    room,
  );
  return [
    ...cells.map((c) => rectangle('note', c.box, pens.hair)),
    ...outlines.map((path) => pathShape('note', path, pens.narrow)),
    ...holes.map(edgeOf),
    ...marks.map((m) => circle('note', carry(place, m.at), 0.5, null, 0)),
    ...numbers.map((n) =>
      text('note', { x: n.box.left, y: n.box.bottom }, n.name, { capital: big, weight: 'bold', grey: 0.3 }),
    ),
    ...names.labels.flatMap((l) => {
      const words = text('note', { x: l.box.left, y: l.box.bottom }, holes.find((h) => h.id === l.id)?.short ?? '', {
        capital,
      });
      return l.leader === null ? [words] : [words, line('note', l.leader.from, l.leader.to, pens.hair)];
    }),
  ];
};
