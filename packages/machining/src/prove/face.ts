import { covarianceOfPoints, wrapAngle } from '@fayplate/core';
import type { Job } from '@fayplate/job';
import { type MatedFace, type Plate, goesOn } from '@fayplate/plate';
import type { ProvedFace } from '../types.js';
import { easeOptions } from './ease.js';
import { faceJoints } from './joints.js';
import { type AsMeasured, placesFor } from './places.js';

/** Beyond this no one files a hole to fit, mm: the plate is drilled wrong. */
const FAR = 5;

/** Chance from which a plate counts as proved: what every ± here holds. */
const SURE = 0.95;

/** It goes on as measured, and the ± of part and plate leave little doubt of it. */
export const isSure = (f: Pick<ProvedFace, 'slack' | 'probability'>): boolean => f.slack >= 0 && f.probability >= SURE;

export interface Trials {
  readonly trials?: number;
  readonly seed?: number;
  readonly progress?: (done: number, of: number) => void;
}

/**
 * Whether the measured plate goes on one face, and what to ease where it does not; null where the readings reach none
 * of its holes.
 */
export const proveFace = (
  mated: MatedFace,
  plate: Plate,
  job: Job,
  as: AsMeasured,
  options: Trials,
): ProvedFace | null => {
  const { laid } = as;
  const places = placesFor(mated.face, plate, as);
  const covariance = (ids: readonly string[]): readonly (readonly number[])[] =>
    covarianceOfPoints(
      laid.covariance,
      ids.map((id) => laid.ids.indexOf(id)),
    );
  const met = faceJoints(plate, job, mated, places, covariance);
  if (met === null) return null;
  const { spec, costs, holes, leftOut } = met;
  if (!spec.joints.some((j, i) => j.role === 'fastener' && laid.ids.includes(holes[i] ?? ''))) return null;
  const { probability, standardError, nominal } = goesOn(spec, options);
  const holeOf = (feature: string): string => holes[spec.joints.findIndex((j) => j.id === feature)] ?? feature;
  const wrong = nominal.slack < 0 && nominal.slack >= -FAR;
  const ease = wrong
    ? easeOptions(
        spec.joints.map((joint, i) => ({ joint, hole: holes[i] ?? joint.id, cost: costs[i] ?? 1 })),
        4 * FAR,
      )
    : [];
  const held = new Set(plate.holes.flatMap((h) => (h.thread === null ? [] : [h.id])));
  return {
    probability,
    standardError,
    slack: nominal.slack,
    shift: nominal.shift,
    turn: nominal.turn,
    tight: nominal.tight.map(holeOf),
    // A screw stands where its thread is: the part's hole is filed towards it.
    ease: ease.map((o) => ({
      ...o,
      eases: o.eases.map((e) =>
        held.has(e.hole) ? { ...e, inPart: true as const, towards: wrapAngle(e.towards + Math.PI) } : e,
      ),
    })),
    leftOut,
  };
};
