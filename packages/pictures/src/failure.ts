import type { Point } from '@fayplate/core';
import { type Shape, circle, line, pens } from '@fayplate/drawing';
import type { Check, CheckId, Plate } from '@fayplate/plate';
import type { Scale } from './scale.js';

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

/** Failed checks by rule, each with all that it fails for: `web between cuts (H1 to H8, H2 to H9)`, `nut under the other part (H1, H2, motor)`. */
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
