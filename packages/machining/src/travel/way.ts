import { type Point, distance } from '@fayplate/core';

/** The sides from which every hole is approached, so that the screw's slack is always taken up the same way: −1 comes from below, 1 from above, 0 either. */
export interface Approach {
  readonly x: -1 | 0 | 1;
  readonly y: -1 | 0 | 1;
  /** How far past the hole the table goes before it comes back, mm: more than the slack of the screw. */
  readonly past: number;
}

const axisVia = (from: number, to: number, side: -1 | 0 | 1, past: number): number => {
  if (side === 0 || from === to) return to;
  const comesFromSide = (to - from) * side < 0 && Math.abs(to - from) >= past;
  return comesFromSide ? to : to + side * past;
};

/** Where the table turns before it comes to `to` from the stated sides; null where the straight way already does. */
export const viaPoint = (from: Point | null, to: Point, approach: Approach | null): Point | null => {
  if (approach === null) return null;
  const start = from ?? { x: to.x - approach.x, y: to.y - approach.y };
  const via = {
    x: axisVia(start.x, to.x, approach.x, approach.past),
    y: axisVia(start.y, to.y, approach.y, approach.past),
  };
  return via.x === to.x && via.y === to.y ? null : via;
};

/** Table travel from one place to the next, mm, by way of the turning point where there is one. */
export const leg = (from: Point, to: Point, approach: Approach | null): number => {
  const via = viaPoint(from, to, approach);
  return via === null ? distance(from, to) : distance(from, via) + distance(via, to);
};

/** Travel along the places in the order given, mm. */
export const wayLength = (places: readonly Point[], approach: Approach | null): number =>
  places.slice(1).reduce((sum, p, i) => sum + leg(places[i] ?? p, p, approach), 0);
