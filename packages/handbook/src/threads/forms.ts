import { DEGREE } from '@fayplate/core';
import { type Source } from '../source.js';

/** The series that a thread belongs to; `G` is the parallel pipe thread of ISO 228. */
export type ThreadSeries =
  | 'UNC'
  | 'UNF'
  | 'UNEF'
  | 'UNS'
  | 'metric coarse'
  | 'metric fine'
  | 'BSW'
  | 'BSF'
  | 'BSC'
  | 'brass'
  | 'BA'
  | 'G';

/** A thread of the tables; lengths mm, angle radians. Diameters are the basic ones, before any tolerance. */
export interface Thread {
  /** As the trade writes it: `3/8-16 UNC`, `#10-24 UNC`, `M10`, `M10x1.25`, `5/16 BSF`, `2 BA`. */
  readonly name: string;
  /** The size alone: `3/8`, `#10`, `M10`, `2 BA`. */
  readonly size: string;
  readonly series: ThreadSeries;
  readonly form: FormName;
  readonly major: number;
  readonly pitch: number;
  /** Threads to the inch as written; null for a thread that is named by its pitch. */
  readonly tpi: number | null;
  /** Included angle of the flanks. */
  readonly angle: number;
  /** Of the external thread, on one side. */
  readonly depth: number;
  /** Effective diameter. */
  readonly pitchDiameter: number;
  /** Of the internal thread: what is left open between its crests. */
  readonly minor: number;
  readonly source: Source;
}

/** The profile that a thread is cut to: `cycle` is the 60° form of BS 811. */
export type FormName = 'unified' | 'metric' | 'whitworth' | 'BA' | 'cycle';

/** A thread form, its depths as multiples of the pitch, each on one side. */
export interface ThreadForm {
  readonly angle: number;
  /** External thread, crest to root. */
  readonly external: number;
  /** Internal thread, basic: half the difference between major and minor. */
  readonly internal: number;
  /** The depth that counts as 100 % of thread when a tap drill is chosen. */
  readonly full: number;
  readonly effective: number;
  readonly source: string;
}

const sharp60 = Math.sqrt(3) / 2;

/** 60°: internal depth 5/8 H, external 17/24 H, and 100 % of thread is the old American National 3/4 H. */
const sixty = {
  angle: 60 * DEGREE,
  external: (17 / 24) * sharp60,
  internal: (5 / 8) * sharp60,
  full: (3 / 4) * sharp60,
  effective: (3 / 8) * sharp60,
};

/** The forms by name, each with its source. */
export const threadForms: Readonly<Record<FormName, ThreadForm>> = {
  unified: { ...sixty, source: 'ASME B1.1, basic profile: factors read in a handbook and computed' },
  metric: { ...sixty, source: 'ISO 68-1, basic profile: factors read in a handbook and computed' },
  whitworth: {
    angle: 55 * DEGREE,
    external: 0.640327,
    internal: 0.640327,
    full: 0.640327,
    effective: 0.640327 / 2,
    source: 'BS 84: depth 0.640327 p, 55°, read in two places',
  },
  cycle: {
    angle: 60 * DEGREE,
    external: 0.5327,
    internal: 0.5327,
    full: 0.5327,
    effective: 0.5327 / 2,
    source: 'BS 811, cycle threads: depth 0.5327 p, 60°, from memory',
  },
  BA: {
    angle: 47.5 * DEGREE,
    external: 0.6,
    internal: 0.6,
    full: 0.6,
    effective: 0.3,
    source: 'BS 93: depth 0.6 p, 47.5°, read in two places',
  },
};
