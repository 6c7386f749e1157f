import { MM_PER_INCH, roundTo } from '@fayplate/core';
import { type StandardFace, standardFace } from '@fayplate/handbook';
import type { Face } from '@fayplate/job';
import { chosenOf } from '../choice.js';
import type { Candidate, FaceLayout } from '../types.js';
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

/** How far a layout is from being what a standard draws: its one full circle, by diameter, mm; Infinity where it is drawn otherwise. */
const distance = (c: Candidate, { holes }: StandardFace): number => {
  const [circle, ...more] = c.circles;
  const full = circle !== undefined && circle.divisions === holes.count && circle.features.length === holes.count;
  return full && more.length === 0 && c.arrays.length === 0 && c.grid === null && c.asMeasured.length === 0
    ? Math.abs(circle.diameter - holes.circle)
    : Infinity;
};

/** Circles nearer than this are one size written in two ways, mm. */
const ALIKE = 0.02;

/**
 * The odds of a face's layouts with the standards taking part: what is not standard keeps its odds among the rest, and the odds of each
 * standard go to the layout that draws it, P′(c) = (1 − Σ s) P(c) + Σ s of the standards that c draws. A standard that no candidate draws
 * gives its share to none, and the rest keeps it.
 */
export const withStandards = (layout: FaceLayout, face: Face, found: Recognition | null): FaceLayout => {
  const drawn = sharesOf(face, found).flatMap(({ face: std, odds }) => {
    const near = layout.candidates.map((c, i) => [i, distance(c, std)] as const).toSorted((a, b) => a[1] - b[1])[0];
    return near === undefined || near[1] > ALIKE ? [] : [{ index: near[0], odds, inch: isInch(std) }];
  });
  const share = drawn.reduce((s, d) => s + d.odds, 0);
  if (share === 0) return { ...layout, recognised: found };
  const rest = Math.max(0, 1 - share);
  const candidates = layout.candidates
    .map((c, i) => ({ ...c, odds: rest * c.odds + drawn.reduce((s, d) => s + (d.index === i ? d.odds : 0), 0) }))
    .toSorted((a, b) => b.odds - a.odds);
  const chosen = chosenOf(candidates);
  const inch = drawn.reduce((s, d) => s + (d.inch ? d.odds : 0), 0);
  const { units } = layout;
  return {
    ...layout,
    candidates,
    asMeasured: rest * layout.asMeasured,
    chosen,
    units: {
      in: rest * units.in + inch,
      mm: rest * units.mm + (share - inch),
      mixed: rest * units.mixed,
      none: rest * units.none,
    },
    recognised: found,
  };
};
