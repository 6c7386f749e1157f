import { type Box, type Point, type Speech, sayNumber } from '@fayplate/core';
import { type Obstacle, type Shape, arrow, circle, crossHair, line, pens, text } from '@fayplate/drawing';
import type { Scale } from './sheet.js';

/** Zero as a ring with four arms, and both axes from it, each named at its head. */
export const axesShapes = (reach: { readonly x: number; readonly y: number }, scale: Scale): readonly Shape[] => [
  circle('note', { x: 0, y: 0 }, scale.capital * 0.7, pens.wide),
  ...crossHair('note', { x: 0, y: 0 }, { open: 0, reach: scale.capital * 1.2 }, pens.narrow),
  ...arrow('note', { x: 0, y: 0 }, { x: reach.x, y: 0 }, pens.narrow, scale.capital * 1.4),
  ...arrow('note', { x: 0, y: 0 }, { x: 0, y: reach.y }, pens.narrow, scale.capital * 1.4),
  text('note', { x: reach.x + scale.gap * 0.6, y: -scale.capital / 2 }, '+X', {
    capital: scale.capital,
    weight: 'bold',
  }),
  text('note', { x: 0, y: reach.y + scale.gap * 0.6 }, '+Y', {
    capital: scale.capital,
    weight: 'bold',
    anchor: 'middle',
  }),
];

/** The heads of both axes with their names, which nothing may cover. */
export const axisHeads = (
  reach: { readonly x: number; readonly y: number },
  { capital, gap }: Scale,
): readonly Obstacle[] => [
  {
    kind: 'box',
    box: { left: reach.x - 2 * capital, right: reach.x + gap + 2 * capital, bottom: -capital, top: capital },
  },
  {
    kind: 'box',
    box: {
      left: -1.5 * capital,
      right: 1.5 * capital,
      bottom: reach.y - 2 * capital,
      top: reach.y + gap + 1.5 * capital,
    },
  },
];

/**
 * How far zero lies from the left and the lower edge of the blank, as arrows outside it; nothing where it lies on an
 * edge.
 */
export const zeroShapes = (blank: Box, { capital, gap }: Scale, speech: Speech): readonly Shape[] => {
  const across = -blank.left;
  const up = -blank.bottom;
  const y = blank.bottom - 1.6 * gap;
  const x = blank.left - 1.6 * gap;
  const middle = { x: blank.left / 2, y: blank.bottom / 2 };
  const ends = (at: Point, to: Point): readonly Shape[] => {
    const half = { x: (at.x + to.x) / 2, y: (at.y + to.y) / 2 };
    return [...arrow('note', half, at, pens.hair, capital), ...arrow('note', half, to, pens.hair, capital)];
  };
  return [
    ...(across < 1e-6
      ? []
      : [
          line('note', { x: 0, y: blank.bottom - 2.4 * gap }, { x: 0, y: 0 }, pens.hair),
          line('note', { x: blank.left, y: blank.bottom - 2.4 * gap }, { x: blank.left, y: blank.bottom }, pens.hair),
          ...ends({ x: blank.left, y }, { x: 0, y }),
          text('note', { x: middle.x, y: y - 1.5 * capital }, sayNumber(across, speech), { capital, anchor: 'middle' }),
        ]),
    ...(up < 1e-6
      ? []
      : [
          line('note', { x: blank.left - 2.4 * gap, y: 0 }, { x: 0, y: 0 }, pens.hair),
          line('note', { x: blank.left - 2.4 * gap, y: blank.bottom }, { x: blank.left, y: blank.bottom }, pens.hair),
          ...ends({ x, y: blank.bottom }, { x, y: 0 }),
          text('note', { x: x - 0.6 * gap, y: middle.y - capital / 2 }, sayNumber(up, speech), {
            capital,
            anchor: 'end',
          }),
        ]),
  ];
};
