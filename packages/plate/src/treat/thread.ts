import {
  type Thread,
  classLimits,
  clearanceHole,
  drills,
  hardware,
  millimetreDrills,
  nearestDrill,
  parseThread,
  threads,
} from '@fayplate/handbook';
import type { FastenSpec, Fit } from '@fayplate/job';
import type { Placed } from '../desk.js';
import type { FastenerHead } from '../types.js';

/** A hole that a pin or thread passes through. */
interface Passing {
  readonly diameter: number;
  readonly most: number;
  readonly drill: string | null;
  readonly source: string;
}

/**
 * A hole of the part whose diameter shows that it carries a thread itself: it has a thread, and what a caliper finds is
 * nearer to that thread's crests than to its major diameter.
 */
export const isTapped = (p: Pick<Placed, 'feature' | 'diameter'>): boolean => {
  const thread = threadOf(p.feature.thread);
  if (p.feature.kind !== 'hole' || thread === null) return false;
  return p.diameter === null || p.feature.diameterFrom === 'thread' || p.diameter < (thread.major + thread.minor) / 2;
};

export const threadOf = (text: string | null): Thread | null => (text === null ? null : parseThread(text));

/** Largest diameter of a fastener, mm: the class's greatest major diameter, or what was measured where that is more. */
export const largest = (thread: Thread | null, measured: number | null): number | null => {
  if (thread === null) return measured;
  return Math.max(classLimits(thread).external.most, measured ?? 0);
};

/**
 * Clearance for a plain pin: the allowance that the next larger metric thread gets. Source: common practice, after ISO
 * 273.
 */
export const passPlain = (diameter: number, fit: Fit): Passing => {
  const next =
    threads.filter((t) => t.series === 'metric coarse').find((t) => t.major >= diameter - 1e-6) ??
    threads.filter((t) => t.series === 'metric coarse').at(-1);
  const allowance = next === undefined ? 1 : clearanceHole(next, fit).diameter - next.major;
  const wanted = diameter + allowance;
  const drill = nearestDrill(wanted, millimetreDrills(), 'at least') ?? nearestDrill(wanted, drills(), 'at least');
  const size = drill?.drill.diameter ?? wanted;
  return {
    diameter: size,
    most: size,
    drill: drill?.drill.name ?? null,
    source: 'common practice: the allowance that ISO 273 gives the next larger thread',
  };
};

export const pass = (thread: Thread, fit: Fit): Passing => {
  const hole = clearanceHole(thread, fit);
  return { diameter: hole.diameter, most: hole.most, drill: hole.drill?.name ?? null, source: hole.source };
};

/**
 * Metric sizes that are rarely stocked: third choice in ISO 261 or not selected for fasteners by ISO 262, from memory.
 */
const rare = new Set([
  'M4.5',
  'M5.5',
  'M7',
  'M9',
  'M11',
  'M15',
  'M17',
  'M25',
  'M26',
  'M28',
  'M32',
  'M35',
  'M38',
  'M40',
]);

/** The next usual thread down in the same series; null at the end of the list. */
export const nextSmaller = (thread: Thread): Thread | null =>
  threads
    .filter((t) => t.series === thread.series && t.major < thread.major - 1e-6 && !rare.has(t.size))
    .toSorted((a, b) => b.major - a.major)[0] ?? null;

/** Rounds a cutter's diameter or a depth up to what a shop has: 0.5 mm, or 1/32 in in a job in inches. */
export const roundUp = (mm: number, unit: 'mm' | 'in'): number => {
  const step = unit === 'in' ? 25.4 / 32 : 0.5;
  return Math.ceil(mm / step - 1e-9) * step;
};

export const inchThread = (thread: Thread): boolean => thread.form === 'unified' || thread.form === 'whitworth';

/** Bolts and screws are stocked in these lengths, mm. Source: ISO 888, from memory. */
const metricLengths = [
  5, 6, 8, 10, 12, 16, 20, 25, 30, 35, 40, 45, 50, 55, 60, 65, 70, 80, 90, 100, 110, 120, 130, 140, 150, 160, 180, 200,
];
/** Eighths to an inch, quarters to four, halves to eight. Source: common practice. */
const inchLengths = [
  2, 3, 4, 5, 6, 7, 8, 10, 12, 14, 16, 18, 20, 22, 24, 26, 28, 30, 32, 36, 40, 44, 48, 52, 56, 60, 64,
].map((n) => (n * 25.4) / 8);

export const stockSource = 'ISO 888, from memory; inches common practice';

/** The shortest length under the head that is stocked within limits, mm; null where there is none. */
export const stockLength = (thread: Thread, least: number, most = Infinity): number | null =>
  (inchThread(thread) ? inchLengths : metricLengths).find((l) => l >= least - 1e-6 && l <= most + 1e-6) ?? null;

/**
 * Whether a washer lies under a nut or head: as the job says; where it says nothing, under a nut and under no head.
 * Source: common practice.
 */
export const hasWasher = (spec: Pick<FastenSpec, 'washer'>, under: FastenerHead['kind'] | 'bolt'): boolean =>
  spec.washer ?? under === 'nut';

/** How thick that washer is, mm; 0 where there is none, or none of its size in the tables. */
export const washerUnder = (
  spec: Pick<FastenSpec, 'washer'>,
  under: FastenerHead['kind'] | 'bolt',
  thread: Thread,
): number => (hasWasher(spec, under) ? (hardware(thread).washer?.thickness ?? 0) : 0);
