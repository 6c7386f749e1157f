import type { Point } from '@fayplate/core';
import { type Shape, arc, circle, crossHair, pens } from '@fayplate/drawing';
import type { Feature } from '@fayplate/job';

const quarter = Math.PI / 2;

/**
 * A feature as the eye meets it. Tone and line both tell the kinds apart: metal that stands out (stud, dowel, spigot, boss) has a
 * second, inner line; a thread is the broken circle of a drawing; an empty hole is a wide line alone.
 */
export const featureShapes = (feature: Feature, centre: Point, radius: number | null): readonly Shape[] => {
  const r = radius ?? 2;
  if (feature.vacant) return [circle('note', centre, r, pens.hidden)];
  switch (feature.kind) {
    case 'stud':
      return [circle('note', centre, r, pens.wide, 0.88), arc('note', centre, r * 0.82, -quarter * 0.9, 2.1 * quarter, pens.narrow)];
    case 'dowel':
      return [circle('note', centre, r, pens.wide, 0.72), ...crossHair('note', centre, { open: 0, reach: r * 0.6 }, pens.narrow)];
    case 'spigot':
    case 'boss':
      return [circle('note', centre, r, pens.wide), circle('note', centre, Math.max(r - 1.2, r * 0.9), pens.hair)];
    case 'bore':
    case 'hole':
    case 'edge':
      return feature.thread === null
        ? [circle('note', centre, r, pens.wide)]
        : [circle('note', centre, r, pens.wide), arc('note', centre, r * 1.15, -quarter * 0.9, 2.1 * quarter, pens.narrow)];
  }
};

export const centreMark = (centre: Point, reach: number): readonly Shape[] => crossHair('note', centre, { open: 0, reach }, pens.hair);
