import { type Point, flatten, flipX, identity, polar, add, pathBox } from '@fayplate/core';
import {
  type Lettering,
  type Shape,
  arc,
  arrow,
  circle,
  crossHair,
  group,
  line,
  pathShape,
  pens,
  text,
} from '@fayplate/drawing';
import type { Plate, Side } from '@fayplate/plate';
import { type Label, crossable, labelShapes, lineObstacle, pathObstacles } from '../labels.js';
import { boreEdges, holePath } from '../plate.js';
import { CAPITAL } from './dimension.js';
import { type ViewPlace, onSheet, pathOnSheet } from './place.js';

const quarter = Math.PI / 2;

/**
 * The plate from one side on the sheet, every hole and bore named; hidden edges are left to the section and the table.
 */
export const viewShapes = (
  plate: Plate,
  side: Side,
  at: Point,
  scale: number,
  lettering: Lettering,
): { readonly shapes: readonly Shape[]; readonly unnamed: readonly string[] } => {
  const v: ViewPlace = { motion: side === 'B' ? identity : flipX, scale, at };
  const outline = pathOnSheet(v, plate.outline.path);
  const box = pathBox(outline);
  const seen = (from: Side | 'through'): boolean => from === 'through' || from === side;
  const edges = boreEdges(plate).map(({ b, edge }) => ({ b, edge: pathOnSheet(v, edge) }));
  const axes = [
    [
      { x: box.left - 4, y: at.y },
      { x: box.right + 4, y: at.y },
    ] as const,
    [
      { x: at.x, y: box.bottom - 4 },
      { x: at.x, y: box.top + 4 },
    ] as const,
  ];
  const labels: readonly Label[] = [
    ...plate.bores.map((b, i) => {
      const a = (side === 'B' ? 1 : -1) * (Math.PI / 4 - (i * Math.PI) / 9) + (side === 'B' ? 0 : Math.PI);
      const c = onSheet(v, b);
      return { id: b.id, centre: add(c, polar((b.diameter / 2) * scale, a)), radius: 0.3, lines: [b.id] };
    }),
    ...plate.holes.map((h) => ({
      id: h.id,
      centre: onSheet(v, h),
      radius:
        (Math.max(h.diameter, h.sink?.diameter ?? 0, h.thread?.major ?? 0) / 2 + (h.slot?.length ?? 0) / 2) * scale,
      lines: [h.id],
    })),
  ];
  const named = labelShapes(
    labels,
    {
      solid: [...crossable(pathObstacles(outline)), ...edges.flatMap(({ edge }) => crossable(pathObstacles(edge)))],
      thin: axes.map(([a, b]) => lineObstacle(a, b)),
    },
    { capital: CAPITAL, small: 2, gap: CAPITAL },
    lettering,
  );
  const shapes = [
    ...axes.map(([a, b]) => line('note', a, b, pens.centre)),
    pathShape('note', outline, pens.wide),
    ...edges.map(({ b, edge }) => pathShape('note', edge, seen(b.side) ? pens.wide : pens.hidden)),
    ...plate.holes.map((h) => {
      const c = onSheet(v, h);
      const away = h.depth !== null && h.from !== side;
      const r = (h.diameter / 2) * scale;
      return group(h.id, [
        pathShape('note', pathOnSheet(v, holePath(h)), away ? pens.hidden : pens.wide),
        ...(h.thread === null
          ? []
          : [
              arc(
                'note',
                c,
                (h.thread.major / 2) * scale,
                -quarter * 0.9,
                2.1 * quarter,
                away ? pens.hidden : pens.narrow,
              ),
            ]),
        ...(h.sink === null
          ? []
          : [circle('note', c, (h.sink.diameter / 2) * scale, h.sink.side === side ? pens.wide : pens.hidden)]),
        ...crossHair('note', c, { open: 0, reach: Math.max(r * 1.3, r + 1) }, pens.hair),
      ]);
    }),
    ...named.shapes,
  ];
  return { shapes, unnamed: named.unnamed };
};

/** Where the section is cut: thick ends of the line with arrows the way one looks, each with its letter. */
export const cuttingLine = (
  plate: Plate,
  direction: number,
  at: Point,
  scale: number,
  third: boolean,
): readonly Shape[] => {
  const rim = flatten(plate.outline.path, 0.5);
  const along = polar(1, direction);
  const reach = Math.max(...rim.map((p) => Math.abs(p.x * along.x + p.y * along.y))) * scale;
  // Looking from the right at what is drawn on the right (third angle), from the left in first angle.
  const look = direction + (third ? quarter : -quarter);
  return [-1, 1].flatMap((end) => {
    const tip = add(at, polar(end * (reach + 7), direction));
    const inner = add(at, polar(end * (reach + 2), direction));
    const head = add(tip, polar(5, look));
    const name = add(tip, polar(end * 3, direction));
    return [
      line('note', inner, tip, { ...pens.wide, width: 0.7 }),
      ...arrow('note', tip, head, pens.narrow, CAPITAL),
      text('note', { x: name.x, y: name.y - CAPITAL / 2 }, 'A', { capital: 3.5, anchor: 'middle', weight: 'bold' }),
    ];
  });
};
