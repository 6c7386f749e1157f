import { type Point, add, polar } from '@fayplate/core';
import { type Shape, circle, crossHair, pens, polygon } from '@fayplate/drawing';

const corners = (n: number, radius: number, first: number, at: Point): readonly Point[] =>
  Array.from({ length: n }, (_, i) => add(at, polar(radius, first + (i * 2 * Math.PI) / n)));

/** Figures that are their own mirror image in both axes, so that half of one never passes for half of another; tallest 2·r. */
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

/** Registration mark number `n` (from 1): a cross-hair in one of eight figures. Centred on `at`, at most `radius` in every direction. */
export const markShapes = (n: number, at: Point, radius: number): readonly Shape[] => {
  const figure = figures[(n - 1) % figures.length];
  return [...(figure?.(at, radius * 0.75) ?? []), ...crossHair('mark', at, { open: 0, reach: radius }, pens.narrow)];
};
