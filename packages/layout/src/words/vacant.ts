import { formatClock, sayAll } from '@fayplate/core';
import type { LaidCircle } from '../types.js';

/** `2 o'clock`, `2:30`. */
export const sayClock = (heading: number): string => {
  const clock = formatClock(heading);
  return clock.includes(':') ? clock : `${clock} o'clock`;
};

const headingOf = (c: LaidCircle, division: number): number =>
  Math.PI / 2 - c.phase - (2 * Math.PI * division) / (c.divisions ?? 1);

/** Directions of the divisions of a circle that carry nothing. */
export const vacantHeadings = (c: LaidCircle): readonly number[] =>
  c.divisions === null
    ? []
    : Array.from({ length: c.divisions }, (_, k) => k)
        .filter((k) => !c.occupied.includes(k))
        .map((k) => headingOf(c, k));

/** `Vacant places of the circle: 1, 4 and 6 o'clock.`; null where every place is taken. */
export const sayVacant = (c: LaidCircle, several: boolean): string | null => {
  const vacant = vacantHeadings(c);
  if (vacant.length === 0) return null;
  const clocks = vacant.map(sayClock);
  const whole = clocks.every((k) => k.endsWith("o'clock"));
  const list = whole ? `${sayAll(clocks.map((k) => k.replace(" o'clock", '')))} o'clock` : sayAll(clocks);
  const where = several ? `of the circle with ${c.features[0] ?? ''}` : 'of the circle';
  return `Vacant ${vacant.length === 1 ? 'place' : 'places'} ${where}: ${list}.`;
};

/** Where the divisions stand to 12 o'clock, where that is plain. */
export const sayPhase = (c: LaidCircle, several: boolean): string | null => {
  if (c.divisions === null) return null;
  const part = (2 * Math.PI) / c.divisions;
  const near = 0.02 * part;
  const which = several ? ` of the circle with ${c.features[0] ?? ''}` : '';
  if (Math.abs(c.phase) < near)
    return c.occupied.includes(0)
      ? `${c.features[c.occupied.indexOf(0)] ?? ''} is at 12 o'clock.`
      : `A vacant place${which} is at 12 o'clock.`;
  return Math.abs(Math.abs(c.phase) - part / 2) < near ? `12 o'clock falls midway between two places${which}.` : null;
};
