import { type Point, apply, origin } from '@fayplate/core';
import type { Face, Job } from '@fayplate/job';
import type { UsedPattern } from '@fayplate/layout';
import type { MatedFace } from '../types.js';
import { motionOf } from './motion.js';
import { movePattern } from './pattern.js';

/** The stated clocking, radians clockwise; where a range is to be searched, zero or the end of the range nearest to it. */
export const statedClocking = (job: Job): number => {
  const clocking = job.plate?.clocking ?? { at: 0 };
  return 'at' in clocking ? clocking.at : Math.min(Math.max(0, clocking.search[0]), clocking.search[1]);
};

/** The two faces that the plate joins, in its order. Throws RangeError where the job has no plate section or names no such face. */
export const matedFaces = (job: Job): readonly [Face, Face] => {
  const find = (name: string | undefined): Face => {
    const face = job.faces.find((f) => f.name === name);
    if (face === undefined) throw new RangeError(`mate: the job has no face ${name ?? 'named in its plate section'}`);
    return face;
  };
  return [find(job.plate?.between[0]), find(job.plate?.between[1])];
};

/**
 * Both patterns in the plate's frame (see `motionOf`); `clocking` in radians clockwise, else the stated one.
 * Throws RangeError where a face or its pattern is missing.
 */
export const mate = (
  job: Job,
  used: ReadonlyMap<string, UsedPattern>,
  clocking: number = statedClocking(job),
): readonly [MatedFace, MatedFace] => {
  const [first, second] = matedFaces(job);
  const lay = (face: Face, place: 'first' | 'second'): MatedFace => {
    const pattern = used.get(face.name)?.pattern;
    if (pattern === undefined) throw new RangeError(`mate: no pattern for ${face.name}`);
    const motion = motionOf(face.viewed, place, clocking);
    const moved = movePattern(motion, pattern);
    return {
      face: face.name,
      pattern: moved,
      side: place === 'first' ? 'A' : 'B',
      centre: centreOf(face, moved, apply(motion, origin)),
      motion,
    };
  };
  return [lay(first, 'first'), lay(second, 'second')];
};

const centreOf = (face: Face, moved: MatedFace['pattern'], fallback: Point): Point =>
  moved.points[moved.ids.indexOf(face.centre ?? '')] ?? fallback;
