import { MM_PER_INCH, type Point } from '@fayplate/core';
import { type Shape, line, moveShape, pens, text } from '@fayplate/drawing';

/**
 * A printed length that a person lays a rule against: both ends in sheet mm before any correction, and what it must
 * measure.
 */
export interface RulerLine {
  readonly from: Point;
  readonly to: Point;
  readonly length: number;
}

export interface Ruler {
  readonly shapes: readonly Shape[];
  readonly lines: readonly RulerLine[];
}

interface Scale {
  readonly step: number;
  readonly count: number;
  /** Tick lengths, mm, for the first of these divisors of the step's number that fits. */
  readonly ticks: readonly (readonly [every: number, length: number])[];
  readonly numberEvery: number;
  readonly per: number;
  readonly side: 1 | -1;
  readonly unit: string;
}

const CAPITAL = 1.8;
/**
 * Ticks at both ends, and where numbers begin, from the line, mm: with their height they stay clear of the window's
 * frame, half a band away.
 */
const END = 3.2;
const NUMBERS = 3.7;

const tickLength = (ticks: Scale['ticks'], i: number): number => ticks.find(([every]) => i % every === 0)?.[1] ?? 1.2;

const scaleShapes = (s: Scale): readonly Shape[] =>
  Array.from({ length: s.count + 1 }, (_, i) => {
    const x = i * s.step;
    const last = i === s.count;
    const up = last || i === 0 ? END : tickLength(s.ticks, i);
    const tick = line('note', { x, y: 0 }, { x, y: s.side * up }, i === 0 || last ? pens.narrow : pens.hair);
    const number = i % s.numberEvery === 0 || last;
    if (!number) return [tick];
    const value = i / s.per;
    const whole = Math.floor(value);
    const words = i === 0 ? '0' : value === whole ? String(value) : `${whole > 0 ? whole : ''}½`;
    const y = s.side > 0 ? NUMBERS : -NUMBERS - CAPITAL;
    // The end's own number is bold and carries the unit; one that would run into it is left out.
    if (!last && (s.count - i) * s.step < 7) return [tick];
    return [
      tick,
      text('note', { x, y }, last ? `${words} ${s.unit}` : words, {
        capital: CAPITAL,
        anchor: i === 0 ? 'start' : 'middle',
        weight: last ? 'bold' : 'regular',
      }),
    ];
  }).flat();

/** Most whole 10 mm and half inches that fit into `room` mm, leaving space for the last number. */
const lengths = (room: number): { readonly tens: number; readonly halves: number } => ({
  tens: Math.max(1, Math.floor((room - 5) / 10)),
  halves: Math.max(1, Math.floor((room - 5) / (MM_PER_INCH / 2))),
});

/**
 * One line with two scales from one zero: millimetres on its left side as one looks along it, inches in sixteenths on
 * the other. `turn` is 0 across the sheet, a quarter turn up it.
 */
export const ruler = (at: Point, room: number, turn: number): Ruler => {
  const { tens, halves } = lengths(room);
  const mm: Scale = {
    step: 1,
    count: tens * 10,
    per: 1,
    numberEvery: 10,
    side: 1,
    unit: 'mm',
    ticks: [
      [10, 3],
      [5, 2.2],
    ],
  };
  const inch: Scale = {
    step: MM_PER_INCH / 16,
    count: halves * 8,
    per: 16,
    numberEvery: 16,
    side: -1,
    unit: 'in',
    ticks: [
      [16, 3],
      [8, 2.5],
      [4, 2],
      [2, 1.6],
    ],
  };
  const ends = [mm, inch].map((s) => s.step * s.count);
  const base = line('note', { x: 0, y: 0 }, { x: Math.max(...ends), y: 0 }, pens.hair);
  const motion = { turn, shift: at, mirrored: false };
  const along = (v: number): Point => ({ x: at.x + v * Math.cos(turn), y: at.y + v * Math.sin(turn) });
  return {
    shapes: [base, ...scaleShapes(mm), ...scaleShapes(inch)].map((s) => moveShape(motion, s)),
    lines: ends.map((length) => ({ from: at, to: along(length), length })),
  };
};

/** A plain line of a stated length between two end ticks, for lengths that run over joins or across corners. */
export const longRuler = (from: Point, to: Point, words: string): Ruler => {
  const length = Math.hypot(to.x - from.x, to.y - from.y);
  const turn = Math.atan2(to.y - from.y, to.x - from.x);
  const motion = { turn, shift: from, mirrored: false };
  const tens = Math.floor(length / 10 + 1e-9);
  const ticks = Array.from({ length: tens + 1 }, (_, i) => {
    const half = i === 0 ? 2.5 : i % 10 === 0 ? 1.4 : 0.8;
    return line('note', { x: i * 10, y: -half }, { x: i * 10, y: half }, i === 0 ? pens.narrow : pens.hair);
  });
  const end = line('note', { x: length, y: -2.5 }, { x: length, y: 2.5 }, pens.narrow);
  const label = text('note', { x: 4, y: 1.6 }, words, { capital: 2 });
  return {
    shapes: [line('note', { x: 0, y: 0 }, { x: length, y: 0 }, pens.hair), ...ticks, end, label].map((s) =>
      moveShape(motion, s),
    ),
    lines: [{ from, to, length }],
  };
};
