import { byCodeUnit, formatClock, sayAll } from '@fayplate/core';
import type { Candidate, FaceLayout, LaidArray, LaidCircle } from '../types.js';

/** Whether an array is the four corners of a square, which are four equal divisions of a circle too. */
const isSquareOfFour = ({ columns, rows, pitch, features }: LaidArray): boolean =>
  columns === 2 && rows === 2 && features.length === 4 && Math.abs((pitch[0] ?? 0) - (pitch[1] ?? 0)) < 1e-9;

/** What a candidate says of the arrangement alone: who is divided how about what, sizes left out. */
export const arrangementOf = (c: Candidate): string => {
  const squares = c.arrays.filter(isSquareOfFour);
  const others = c.arrays.filter((a) => !isSquareOfFour(a));
  // A circle whose every place is taken is the same whichever is counted first.
  const full = (about: string | null, features: readonly string[]): unknown => [
    about,
    features.length,
    [...features].sort(byCodeUnit),
  ];
  const circles = c.circles.map((k) =>
    k.divisions === k.features.length
      ? [full(k.about, k.features), k.turned]
      : [k.about, k.divisions, k.features, k.occupied.map((o) => o - (k.occupied[0] ?? 0)), k.turned],
  );
  return JSON.stringify([
    [...circles, ...squares.map((a) => [full(a.about, a.features), a.turned])],
    others.map((a) => [a.about, a.columns, a.rows, a.features, a.turned]),
    c.grid === null ? null : [c.grid.step, c.grid.features],
    c.mirror?.said === true ? c.mirror.features : null,
    c.opposite,
    c.asMeasured,
  ]);
};

/** The whole drawings of a layout, likeliest first: a coarser candidate stands for those beneath it. */
export const wholeDrawings = ({ candidates }: Pick<FaceLayout, 'candidates'>): readonly Candidate[] =>
  candidates.flatMap((c) => (c.finer.length > 0 ? c.finer : [c]));

/** `2 o'clock`, `2:30`. */
const sayClock = (heading: number): string => {
  const clock = formatClock(heading);
  return clock.includes(':') ? clock : `${clock} o'clock`;
};

const headingOf = (c: LaidCircle, division: number): number =>
  Math.PI / 2 - c.clockwisePhase - (2 * Math.PI * division) / (c.divisions ?? 1);

/** Directions of the divisions of a circle that carry nothing. */
const vacantHeadings = (c: LaidCircle): readonly number[] =>
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
  if (Math.abs(c.clockwisePhase) < near)
    return c.occupied.includes(0)
      ? `${c.features[c.occupied.indexOf(0)] ?? ''} is at 12 o'clock.`
      : `A vacant place${which} is at 12 o'clock.`;
  return Math.abs(Math.abs(c.clockwisePhase) - part / 2) < near
    ? `12 o'clock falls midway between two places${which}.`
    : null;
};
