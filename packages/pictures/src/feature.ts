import type { Point } from '@fayplate/core';
import { type Shape, arc, circle, crossHair, pens } from '@fayplate/drawing';
import type { Feature } from '@fayplate/job';

const quarter = Math.PI / 2;

/**
 * A feature as the eye meets it. Tone and line both tell the kinds apart: a stud is grey, a dowel darker with a cross, a spigot or boss has
 * a second, inner line, a thread is the broken circle of a drawing, a hole is one line alone, and a place with nothing in it is a broken one.
 */
export const featureShapes = (feature: Feature, centre: Point, radius: number | null): readonly Shape[] => {
  const r = radius ?? 2;
  if (feature.vacant) return [circle('note', centre, r, pens.hidden)];
  switch (feature.kind) {
    case 'stud':
      return [
        circle('note', centre, r, pens.narrow, 0.88),
        ...(feature.thread === null ? [] : [arc('note', centre, r * 0.82, -quarter * 0.9, 2.1 * quarter, pens.hair)]),
      ];
    case 'dowel':
      return [
        circle('note', centre, r, pens.narrow, 0.72),
        ...crossHair('note', centre, { open: 0, reach: r * 0.6 }, pens.narrow),
      ];
    case 'spigot':
    case 'boss':
      return [circle('note', centre, r, pens.narrow), circle('note', centre, Math.max(r - 1.2, r * 0.9), pens.hair)];
    case 'bore':
    case 'hole':
    case 'edge':
      return feature.thread === null
        ? [circle('note', centre, r, pens.narrow)]
        : [
            circle('note', centre, r, pens.narrow),
            arc('note', centre, r * 1.15, -quarter * 0.9, 2.1 * quarter, pens.narrow),
          ];
  }
};

export const centreMark = (centre: Point, reach: number): readonly Shape[] =>
  crossHair('note', centre, { open: 0, reach }, pens.hair);
