import type { Job } from '@fayplate/job';
import {
  type GoesOnSpec,
  type MatedFace,
  type Meeting,
  type Plate,
  type PlateBore,
  type PlateHole,
  meetingsOf,
  usualDrilling,
} from '@fayplate/plate';
import type { Measured } from './places.js';

export interface FaceJoints {
  readonly spec: GoesOnSpec;
  /** Metal that easing takes from each joint's hole for every millimetre, mm³/mm, in the order of the joints. */
  readonly costs: readonly number[];
  /** The plate hole or bore of each joint. */
  readonly holes: readonly string[];
  readonly leftOut: readonly string[];
}

type CovarianceOf = (ids: readonly string[]) => readonly (readonly number[])[];

/**
 * What must meet for one face: what is measured stands where the readings put it, without making error; the rest with
 * the job's drilling ±. The covariance is of the part's places and the measured ones together. Null where the job has
 * no such face.
 */
export const faceJoints = (
  plate: Plate,
  job: Job,
  mated: MatedFace,
  measured: ReadonlyMap<string, Measured>,
  covariance: CovarianceOf,
): FaceJoints | null => {
  const face = job.faces.find((f) => f.name === mated.face);
  if (face === undefined) return null;
  const found = {
    holes: plate.holes.map((h) => asMeasured(h, measured)),
    bores: plate.bores.map((b) => asMeasured(b, measured)),
  };
  const { meetings, unsized } = meetingsOf(face, mated, found, job.plate?.drilling ?? usualDrilling);
  const making = job.plate?.drilling ?? usualDrilling;
  return {
    spec: {
      joints: meetings.map((m) => ({ ...m.joint, made: (measured.get(m.cut.id)?.as ?? null) === null ? making : 0 })),
      covariance: summed(meetings, mated, measured, covariance),
    },
    costs: meetings.map(({ cut }) => ('as' in cut ? cut.diameter * (cut.land[1] - cut.land[0]) : 0)),
    holes: meetings.map((m) => m.cut.id),
    leftOut: unsized.map((id) => `${id}: the diameters that meet there are not both known`),
  };
};

const asMeasured = <C extends PlateHole | PlateBore>(cut: C, measured: ReadonlyMap<string, Measured>): C => {
  const found = measured.get(cut.id);
  if (found === undefined) return cut;
  const { at, diameter } = found;
  return {
    ...cut,
    x: at.x,
    y: at.y,
    ...(diameter === null
      ? {}
      : { limits: [diameter.value - diameter.plusMinus, diameter.value + diameter.plusMinus] }),
  };
};

/** Covariance of part less plate, joint by joint: the two are measured apart, so their covariances add. */
const summed = (
  meetings: readonly Meeting[],
  mated: MatedFace,
  measured: ReadonlyMap<string, Measured>,
  covariance: CovarianceOf,
): readonly (readonly number[])[] => {
  const known = [...new Set(meetings.flatMap((m) => measured.get(m.cut.id)?.as ?? []))];
  const plate = covariance(known);
  const parts = meetings.map((m) => mated.pattern.ids.indexOf(m.joint.id));
  const cuts = meetings.map((m) => known.indexOf(measured.get(m.cut.id)?.as ?? ''));
  const pick = (c: readonly (readonly number[])[], at: readonly number[], r: number, s: number): number => {
    const [i = -1, j = -1] = [at[r >> 1], at[s >> 1]];
    return i < 0 || j < 0 ? 0 : (c[2 * i + (r & 1)]?.[2 * j + (s & 1)] ?? 0);
  };
  return Array.from({ length: 2 * meetings.length }, (_, r) =>
    Array.from(
      { length: 2 * meetings.length },
      (_, s) => pick(mated.pattern.covariance, parts, r, s) + pick(plate, cuts, r, s),
    ),
  );
};
