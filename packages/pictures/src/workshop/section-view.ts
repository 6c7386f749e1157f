import type { Point } from '@fayplate/core';
import { type Shape, group, inGrey, line, pens, polygon, text } from '@fayplate/drawing';
import type { Plate } from '@fayplate/plate';
import { hatch } from '../hatch.js';
import type { Profile } from '../section-profile.js';
import { narrowDimension } from './dimension.js';
import { datumFlag } from './symbols.js';

/** How far a section reaches over the sheet, mm about its own origin: across its thickness, and up. */
export const sectionSize = (profile: Profile, scale: number) => {
  const points = profile.solids.flat();
  return {
    width: scale * (Math.max(...points.map((p) => p.y)) - Math.min(...points.map((p) => p.y))),
    top: scale * Math.max(...points.map((p) => p.x)),
    bottom: scale * Math.min(...points.map((p) => p.x)),
  };
};

/**
 * The section stood up: its line runs up the sheet, its thickness across, `at` where the line's origin meets the flat
 * of side A (first angle: side B to the right, third angle: to the left). `thick`: the thickness as it is asked for.
 */
export const sectionShapes = (
  plate: Plate,
  profile: Profile,
  at: Point,
  scale: number,
  third: boolean,
  thick: string,
): readonly Shape[] => {
  const side = third ? -1 : 1;
  const put = (p: Point): Point => ({ x: at.x + side * scale * p.y, y: at.y + scale * p.x });
  const solids = profile.solids.map((piece) => piece.map(put));
  const voids = profile.voids.map((piece) => piece.map(put));
  const { top, bottom } = sectionSize(profile, scale);
  const [a, b] = [put({ x: 0, y: 0 }).x, put({ x: 0, y: plate.thickness }).x].sort((p, q) => p - q);
  const foot = at.y + bottom - 8;
  const flagAt = put({ x: profile.outlines[0]?.[0]?.x ?? 0, y: 0 });
  return [
    group(
      'section metal',
      profile.outlines.map((piece) => polygon('note', piece.map(put), pens.wide)),
    ),
    group(
      'section hatching',
      hatch(solids, voids, 2).map(([p, q]) => line('note', p, q, inGrey(pens.hair, 0.3))),
    ),
    group(
      'section cuts',
      voids.map((piece) => polygon('note', piece, pens.narrow, 1)),
    ),
    ...profile.threads.map(([p, q]) => line('note', put(p), put(q), pens.hair)),
    ...[...profile.holes.filter((h) => h.axial).map((h) => h.u), 0].map((u) =>
      line('note', put({ x: u, y: -4 / scale }), put({ x: u, y: plate.thickness + 4 / scale }), pens.centre),
    ),
    ...[a, b].map((x) => line('note', { x: x ?? 0, y: at.y + bottom - 1 }, { x: x ?? 0, y: foot - 2 }, pens.hair)),
    ...narrowDimension({ x: a ?? 0, y: foot }, { x: b ?? 0, y: foot }, thick),
    ...datumFlag('A', { x: flagAt.x, y: flagAt.y + 6 }, { x: flagAt.x - side * 8, y: flagAt.y + 6 }),
    text('note', { x: at.x + (side * scale * plate.thickness) / 2, y: at.y + top + 7 }, 'A–A', {
      capital: 3.5,
      anchor: 'middle',
      weight: 'bold',
    }),
    text('note', { x: (a ?? 0) - 2, y: at.y + top + 2.5 }, third ? 'side B' : 'side A', {
      capital: 2,
      anchor: 'middle',
    }),
    text('note', { x: (b ?? 0) + 2, y: at.y + top + 2.5 }, third ? 'side A' : 'side B', {
      capital: 2,
      anchor: 'middle',
    }),
  ];
};
