import { MM_PER_INCH, roundTo } from '@fayplate/core';
import { type StandardFace, standardFace } from '@fayplate/handbook';
import type { Face } from '@fayplate/job';
import type { Candidate } from '../types.js';
import type { Recognition } from './recognise.js';

/** A standard's part in the odds of a layout. */
interface Share {
  readonly face: StandardFace;
  readonly odds: number;
}

const sharesOf = (face: Face, found: Recognition | null): readonly Share[] => {
  const named = face.standard === null ? null : standardFace(face.standard.name);
  if (named !== null) return [{ face: named, odds: 1 }];
  return (found?.candidates ?? []).map((c) => ({ face: c.face, odds: c.odds }));
};

/** A standard in inches has a circle of whole thousandths of an inch. */
const isInch = ({ holes: { circle } }: StandardFace): boolean =>
  Math.abs(circle - roundTo(circle, MM_PER_INCH / 1000)) < 1e-6 && Math.abs(circle - Math.round(circle)) > 1e-6;

/**
 * How far a layout is from being what a standard draws: its one full circle, by diameter, mm; Infinity where it is
 * drawn otherwise.
 */
const distance = (c: Candidate, { holes }: StandardFace): number => {
  const [circle, ...more] = c.circles;
  const full = circle !== undefined && circle.divisions === holes.count && circle.features.length === holes.count;
  return full && more.length === 0 && c.arrays.length === 0 && c.grid === null && c.asMeasured.length === 0
    ? Math.abs(circle.diameter - holes.circle)
    : Infinity;
};

/** Circles nearer than this are one size written in two ways, mm. */
const ALIKE = 0.02;

/** What the standards take of the odds of a layout's whole drawings, and what they leave. */
export interface StandardShare {
  /** Left to what is no standard: every drawing keeps so much of its odds. */
  readonly rest: number;
  /** Added to each drawing, in their order. */
  readonly added: readonly number[];
  /** The units of what is added. */
  readonly units: { readonly in: number; readonly mm: number };
}

/**
 * The part of the standards in the odds of a face's drawings: what is not standard keeps its odds among the rest, and
 * the odds of each standard go to the drawing that is its own, P′(c) = (1 − Σ s) P(c) + Σ s of the standards that c
 * draws. A standard that no drawing is gives its share to none, and the rest keeps it.
 */
export const standardShare = (drawings: readonly Candidate[], face: Face, found: Recognition | null): StandardShare => {
  const drawn = sharesOf(face, found).flatMap(({ face: std, odds }) => {
    const near = drawings.map((c, i) => [i, distance(c, std)] as const).toSorted((a, b) => a[1] - b[1])[0];
    return near === undefined || near[1] > ALIKE ? [] : [{ index: near[0], odds, inch: isInch(std) }];
  });
  const sum = (some: typeof drawn): number => some.reduce((s, d) => s + d.odds, 0);
  return {
    rest: Math.max(0, 1 - sum(drawn)),
    added: drawings.map((_, i) => sum(drawn.filter((d) => d.index === i))),
    units: { in: sum(drawn.filter((d) => d.inch)), mm: sum(drawn.filter((d) => !d.inch)) },
  };
};
