import type { Point } from '@fayplate/core';
import { type Shape, arc, circle, crossHair, line, pens } from '@fayplate/drawing';
import type { Feature } from '@fayplate/job';
import type { Check, CheckId, Plate } from '@fayplate/plate';
import type { Scale } from './sheet.js';

const quarter = Math.PI / 2;

/**
 * A feature as the eye meets it. Tone and line both tell the kinds apart: a stud is grey, a dowel darker with a cross,
 * a spigot or boss has a second, inner line, a thread is the broken circle of a drawing, a hole is one line alone, and
 * a place with nothing in it is a broken one.
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

/** Rings of a failed check, in capitals. */
export const RING = { inner: 1.4, outer: 1.75 } as const;

/** A failed check where it is: a ring of two lines and a bar across it, which no feature has. */
export const failure = (at: Point, scale: Scale): readonly Shape[] => {
  const r = RING.inner * scale.capital;
  const d = r * Math.SQRT1_2;
  return [
    circle('note', at, r, pens.wide),
    circle('note', at, RING.outer * scale.capital, pens.wide),
    line('note', { x: at.x - d, y: at.y - d }, { x: at.x + d, y: at.y + d }, { ...pens.wide, width: 0.8 }),
  ];
};

/** Rules about one thing beside another; all others are each about what they list. */
const betweenTwo: ReadonlySet<CheckId> = new Set<CheckId>([
  'web-between-cuts',
  'floor-between-cuts',
  'socket-room',
  'head-seat',
]);

/**
 * Failed checks by rule, each with all that it fails for: `web between cuts (H1 to H8, H2 to H9)`, `nut under the other
 * part (H1, H2, motor)`.
 */
export const failureWords = (plate: Plate, checks: readonly Check[]): string => {
  const isHole = (id: string): boolean => plate.holes.some((h) => h.id === id);
  const rules = new Map<string, Set<string>>();
  for (const c of checks) {
    const of = c.of.length === 2 && c.of.every(isHole) && betweenTwo.has(c.id) ? [c.of.join(' to ')] : c.of;
    const known = rules.get(c.rule) ?? new Set();
    rules.set(c.rule, new Set([...known, ...of]));
  }
  const order = (ids: ReadonlySet<string>): readonly string[] =>
    [...ids].sort((a, b) => Number(isHole(b) || b.includes(' to ')) - Number(isHole(a) || a.includes(' to ')));
  return [...rules].map(([rule, of]) => (of.size === 0 ? rule : `${rule} (${order(of).join(', ')})`)).join('; ');
};
