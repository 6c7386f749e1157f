import { heading, say, subtract } from '@fayplate/core';
import type { Job } from '@fayplate/job';
import { enough } from '../assembly/goes-on.js';
import { type Change, advised, fit as withFit, located, opened as withHolesOpened } from '../cures/change.js';
import { holesIn } from '../cures/fasteners.js';
import type { GoesOn, GoesOnSpec } from '../types.js';
import type { FaceJoints } from './joints.js';

/** ± of a hole placed by read-out, mm. Source: common practice. */
const READ_OUT = 0.05;

/**
 * The same with its first two dowels alone, the second in a slot that runs toward the first; null where it has not two
 * round ones.
 */
const slotted = ({
  joints,
  covariance,
}: GoesOnSpec): {
  readonly spec: GoesOnSpec;
  readonly names: readonly [string, string];
  readonly others: number;
} | null => {
  const [first, second, ...others] = joints.filter((j) => j.role === 'locator' && j.made > 0);
  if (first === undefined || second === undefined || (others.length === 0 && second.along !== null)) return null;
  const kept = joints.flatMap((j, i) => (others.includes(j) ? [] : [i]));
  const rows = kept.flatMap((i) => [2 * i, 2 * i + 1]);
  const along = heading(subtract(second.plate, first.plate));
  const spec = {
    joints: kept.flatMap((i) => joints[i] ?? []).map((j) => (j === second ? { ...j, along } : j)),
    covariance: rows.map((r) => rows.map((c) => covariance[r]?.[c] ?? 0)),
  };
  return { spec, names: [first.id, second.id], others: others.length };
};

/**
 * The smallest fit that is enough, the second dowel in a slot, the part's own holes opened out where its bolts are held
 * in the plate, holes placed by read-out, and places known exactly.
 */
export const chanceCures = (
  job: Job,
  face: string,
  g: GoesOn,
  met: FaceJoints,
  chanceWith: (change: Partial<GoesOnSpec>) => number,
): readonly Change[] => {
  if (g.probability >= enough) return [];
  const { joints, covariance } = met.spec;
  const opened = met.opened.find(
    (o) =>
      chanceWith({ joints: joints.map((j, i) => ({ ...j, clearance: o.clearances[i] ?? j.clearance })) }) >= enough,
  );
  const fit = met.fits.find((f) => f.name === g.proposal)?.name ?? null;
  const byReadOut =
    joints.some((j) => j.made > READ_OUT) &&
    chanceWith({ joints: joints.map((j) => ({ ...j, made: Math.min(j.made, READ_OUT) })) }) >= enough;
  const measured =
    covariance.some((row) => row.some((v) => v !== 0)) &&
    chanceWith({ covariance: covariance.map((row) => row.map(() => 0)) }) >= enough;
  const slot = slotted(met.spec);
  const bySlot = slot !== null && chanceWith(slot.spec) >= enough;
  const slotSays =
    slot?.others === 0
      ? `make the hole for ${face}'s second dowel a slot`
      : `locate ${face} by ${slot?.names.join(' and ') ?? ''} alone, the second in a slot`;
  return [
    ...(fit === null ? [] : [withFit(job, face, fit)]),
    ...(bySlot ? [located(job, face, slotSays, { as: 'own dowels', features: slot.names, second: 'slot' })] : []),
    ...(opened === undefined
      ? []
      : [
          withHolesOpened(
            job,
            face,
            `open the holes of ${face} out to ${opened.name}`,
            holesIn(job, face),
            opened.diameter,
          ),
        ]),
    ...(byReadOut
      ? [
          advised(
            job,
            face,
            'drill by read-out, each hole within ± ' +
              say(READ_OUT, { unit: job.units, fraction: null }, job.units === 'in' ? 3 : 2),
          ),
        ]
      : []),
    ...(measured ? [advised(job, face, `measure ${face} more closely: its ± is the cause`)] : []),
  ];
};
