import { type Point, distance, dot, heading, norm, polar, scale, subtract } from '@fayplate/core';
import type { AssembledReading, Job } from '@fayplate/job';
import { type MatedFace, type Plate, meetingsOf, mostRoom, usualDrilling } from '@fayplate/plate';
import type { Assembled, ShimAt } from '../types.js';

/** Offset that a coupling bears where the job does not say, mm: as in the design. */
const USUAL_OFFSET = 0.2;

/** Where a reading was high, as a direction of the plate's frame; null where it was not read or nothing places it. */
const highOf = ({ toward }: AssembledReading, plate: Plate, from: Point): number | null => {
  if (toward === null) return null;
  if ('clockwise' in toward) return Math.PI / 2 - toward.clockwise;
  const name = toward.feature;
  const hole = [...plate.holes, ...plate.bores].find(
    (h) => h.id === name || h.feature === name || h.part?.feature === name,
  );
  return hole === undefined || distance(hole, from) < 1e-9 ? null : heading(subtract(hole, from));
};

/** The part that is moved: the second, unless a register or dowels of its own hold it and not the first. */
const movedPart = (job: Job): string => {
  const [first = '', second = ''] = job.plate?.between ?? [];
  const isHeld = (face: string): boolean => (job.plate?.locate.get(face)?.as ?? 'new dowels') !== 'new dowels';
  return isHeld(second) && !isHeld(first) ? first : second;
};

/**
 * How far the part can be shifted on the plate, mm: to where its first bolt or its register stops it. Null where a size
 * is not known.
 */
const playOf = (job: Job, plate: Plate, mated: readonly MatedFace[], part: string): Assembled['play'] => {
  const face = job.faces.find((f) => f.name === part);
  const own = mated.find((m) => m.face === part);
  if (face === undefined || own === undefined) return null;
  const { meetings } = meetingsOf(face, own, plate, job.plate?.drilling ?? usualDrilling);
  const reaches = meetings.map(({ joint, cut }) => ({
    by: cut.id,
    locates: joint.role === 'locator',
    most: Math.max(0, mostRoom(joint) - distance(joint.plate, joint.part)),
  }));
  return reaches.toSorted((a, b) => a.most - b.most)[0] ?? null;
};

/** Thickness under each bolt of the part, so that it rises toward `high` by `lean` radians; none under the lowest. */
const shimsFor = (plate: Plate, part: string, lean: number, high: number): readonly ShimAt[] => {
  const bolts = plate.holes.filter((h) => h.part?.face === part && h.as !== 'dowel' && h.as !== 'slot');
  const rises = bolts.map((h) => dot(h, polar(1, high)) * Math.tan(lean));
  const least = Math.min(...rises);
  return bolts.map((h, i) => ({ hole: h.id, feature: h.feature, thick: (rises[i] ?? 0) - least }));
};

/** How far the axes lie apart by the last rim reading, and how the part is shifted for it. */
const offsetBy = (rim: AssembledReading, part: string, high: number | null, limit: number): Assembled['offset'] => {
  const by = rim.travel / 2;
  return {
    reading: rim,
    by,
    plusMinus: rim.plusMinus / 2,
    limit,
    ok: by <= limit + 1e-9,
    shift: high === null ? null : scale(polar(by, high), part === rim.about ? 1 : -1),
  };
};

/** How the shafts lean from each other by the last face reading, and what is laid under the part for it. */
const tiltBy = (
  face: AssembledReading & { readonly radius: number },
  high: number | null,
  limit: number | null,
  shims: (lean: number, high: number) => readonly ShimAt[],
): Assembled['tilt'] => {
  const width = 2 * face.radius;
  const by = Math.atan(face.travel / width);
  return {
    reading: face,
    by,
    plusMinus: Math.atan(face.plusMinus / width),
    limit,
    ok: limit === null ? null : by <= limit + 1e-12,
    high,
    shims: high === null ? [] : shims(by, high),
  };
};

/**
 * What the last rim reading and the last face reading say once the machine stands, and what puts it right. The axis of
 * what is swept lies half the travel from the axis that carries the dial, toward where it is high; both faces come
 * nearest where a face is high, and over a width of 2 r by the travel. Null where nothing was read.
 */
export const assembledWith = (job: Job, plate: Plate, mated: readonly MatedFace[]): Assembled | null => {
  const readings = job.assembled ?? [];
  const rim = readings.findLast((r) => r.radius === null);
  const face = readings.findLast((r): r is typeof r & { readonly radius: number } => r.radius !== null);
  const [one] = mated;
  if ((rim === undefined && face === undefined) || one === undefined) return null;
  const part = movedPart(job);
  const axis = one.axis?.at ?? one.centre;
  const limits = job.plate?.alignment ?? null;
  return {
    part,
    offset: rim === undefined ? null : offsetBy(rim, part, highOf(rim, plate, axis), limits?.offset ?? USUAL_OFFSET),
    tilt:
      face === undefined
        ? null
        : tiltBy(face, highOf(face, plate, axis), limits?.tilt ?? null, (lean, high) =>
            shimsFor(plate, part, lean, high),
          ),
    play: playOf(job, plate, mated, part),
  };
};

/** Whether the part can be shifted as far as it must. */
export const canShift = ({ offset, play }: Assembled): boolean | null =>
  offset?.shift == null || play === null ? null : norm(offset.shift) <= play.most + 1e-9;
