import { flatten } from '@fayplate/core';
import { type Lettering, type Picture, type Shape, circle, group, line, pathShape, pens } from '@fayplate/drawing';
import type { Plate } from '@fayplate/plate';
import { type Label, crossable, labelShapes, pathObstacles } from './labels.js';
import { boreEdges, holePath } from './plate.js';
import { enlarged, scaleFor, sheet } from './sheet.js';

/** It is shrunk to a third of a page, and read at arm's length. */
const LARGE = 1.7;

/** Hole → its place in the order of tightening, from 1 through both parts. */
const orderOf = (plate: Plate): ReadonlyMap<string, number> =>
  new Map(plate.assembly.tightening.flatMap((t) => t.holes).map((id, i) => [id, i + 1]));

/** A cross over a fastener that cannot be reached again: tone is never the only sign. */
const crossed = (x: number, y: number, r: number): readonly Shape[] => {
  const d = r * Math.SQRT1_2;
  return [
    line('note', { x: x - d, y: y - d }, { x: x + d, y: y + d }, pens.narrow),
    line('note', { x: x - d, y: y + d }, { x: x + d, y: y - d }, pens.narrow),
  ];
};

/**
 * The plate from side B with the order of tightening at each fastener, the room of its socket, and what is covered
 * later.
 */
export const assemblyPicture = (plate: Plate, lettering: Lettering): Picture => {
  const scale = enlarged(scaleFor(flatten(plate.outline.path, 1)), LARGE);
  const order = orderOf(plate);
  const groupOf = new Map(plate.assembly.tightening.flatMap((t) => t.holes.map((id) => [id, t] as const)));
  const holes = plate.holes.filter((h) => order.has(h.id));
  const reachOf = (id: string, diameter: number): number => Math.max(diameter, groupOf.get(id)?.tool?.outside ?? 0) / 2;
  const labels: readonly Label[] = holes.map((h) => ({
    id: h.id,
    centre: h,
    radius: reachOf(h.id, h.diameter),
    lines: [`${order.get(h.id) ?? ''}`, h.id],
  }));
  const named = labelShapes(
    labels,
    {
      solid: [
        ...crossable(pathObstacles(plate.outline.path)),
        ...boreEdges(plate).flatMap(({ edge }) => crossable(pathObstacles(edge))),
      ],
    },
    scale,
    lettering,
  );
  const shapes: readonly Shape[] = [
    pathShape('note', plate.outline.path, { ...pens.wide, width: 0.7 }),
    ...boreEdges(plate).map(({ b, edge }) =>
      pathShape('note', edge, b.side === 'A' ? pens.hidden : b.side === 'through' ? pens.wide : pens.narrow),
    ),
    ...plate.holes.map((h) => pathShape('note', holePath(h), order.has(h.id) ? pens.wide : pens.hair)),
    ...holes.map((h) => {
      const t = groupOf.get(h.id);
      const r = reachOf(h.id, h.diameter);
      return group(h.id, [
        circle('note', h, r, t?.side === null ? pens.hidden : pens.narrow),
        ...(t !== undefined && t.covered !== 'no' ? crossed(h.x, h.y, r) : []),
      ]);
    }),
    ...named.shapes,
  ];
  const covered = plate.assembly.tightening.filter((t) => t.covered !== 'no').flatMap((t) => t.holes);
  return sheet(
    'In this order',
    shapes,
    [
      'Side B faces you. The number is the order of tightening; the ring is what the socket or head needs (broken: ' +
        'from behind the part).',
      ...(covered.length === 0 ? [] : [`Crossed: out of reach once ${plate.assembly.order[1]} is on.`]),
      ...(named.unnamed.length === 0 ? [] : [`No room to name in the drawing: ${named.unnamed.join(', ')}.`]),
    ],
    scale,
    null,
    lettering,
  );
};
