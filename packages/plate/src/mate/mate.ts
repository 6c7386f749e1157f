import {
  type Motion,
  type Point,
  add,
  apply,
  compose,
  flipX,
  identity,
  linearPart,
  norm,
  origin,
  polar,
  rotation,
  scale,
  subtract,
  translation,
} from '@fayplate/core';
import type { Face, Job } from '@fayplate/job';
import type { UsedPattern } from '@fayplate/layout';
import type { Pattern } from '@fayplate/survey';
import type { MatedFace, ShaftAxis } from '../types.js';

/**
 * From a face's own frame (x, y as viewed) into the plate's, which is seen from side B looking at the first face.
 * An eye on the plate's side of the first face sees it as the plate is drawn; an eye behind it sees x the other way
 * round. The second face lies toward the viewer, so it is the other way about, and then it turns clockwise by
 * `clocking`.
 */
export const motionOf = (viewed: Face['viewed'], place: 'first' | 'second', clocking: number): Motion => {
  const fromBehind = viewed === 'from behind' || viewed === 'off the old plate';
  if (place === 'first') return fromBehind ? flipX : identity;
  return compose(rotation(-clocking), fromBehind ? identity : flipX);
};

/** The pattern moved; the joint covariance goes by the linear part, block by block: C'ᵢⱼ = A Cᵢⱼ Aᵀ. */
export const movePattern = (motion: Motion, pattern: Pattern): Pattern => {
  const a = linearPart(motion);
  const c = pattern.covariance;
  const block = (row: number, column: number): number => {
    const i = row & ~1;
    const j = column & ~1;
    let sum = 0;
    for (let k = 0; k < 2; k++) {
      for (let l = 0; l < 2; l++) sum += (a[row & 1]?.[k] ?? 0) * (c[i + k]?.[j + l] ?? 0) * (a[column & 1]?.[l] ?? 0);
    }
    return sum;
  };
  return {
    ...pattern,
    points: pattern.points.map((p) => apply(motion, p)),
    covariance: c.map((line, row) => line.map((_, column) => block(row, column))),
  };
};

/**
 * The stated clocking, radians clockwise; where a range is to be searched, zero or the end of the range nearest to it.
 */
export const statedClocking = (job: Job): number => {
  const clocking = job.plate?.clocking ?? { at: 0 };
  return 'at' in clocking ? clocking.at : Math.min(Math.max(0, clocking.search[0]), clocking.search[1]);
};

/**
 * The two faces that the plate joins, in its order. Throws RangeError where the job has no plate section or names no
 * such face.
 */
export const matedFaces = (job: Job): readonly [Face, Face] => {
  const find = (name: string | undefined): Face => {
    const face = job.faces.find((f) => f.name === name);
    if (face === undefined) throw new RangeError(`mate: the job has no face ${name ?? 'named in its plate section'}`);
    return face;
  };
  return [find(job.plate?.between[0]), find(job.plate?.between[1])];
};

/**
 * The axis of a face's shaft: stated, or the centre of what is stated; null where nothing says it. The origin of the
 * coordinates alone does not.
 */
const axisOf = (face: Face, used: UsedPattern): ShaftAxis | null => {
  const placeOf = (id: string | null): Point | undefined => used.pattern.points[used.pattern.ids.indexOf(id ?? '')];
  const shaft = placeOf(face.shaft);
  if (shaft !== undefined) return { at: shaft, by: 'shaft', feature: face.shaft };
  const centre = placeOf(face.centre);
  if (centre !== undefined && face.shaft === null) return { at: centre, by: 'centre', feature: face.centre };
  // Its own frame has the circle's centre at (0, 0); the layout's circle, where there is one, has its own.
  if (
    face.centreCircle !== undefined &&
    face.shaft === null &&
    !(face.centreLaid === true && used.circleCentre != null)
  )
    return { at: origin, by: 'circle', feature: null };
  if (face.shaft !== null || used.circleCentre == null) return null;
  const covariance = used.circleSpread ?? null;
  return { at: used.circleCentre, by: 'circle', feature: null, ...(covariance === null ? {} : { covariance }) };
};

/** An axis carried by a motion, with its ±. */
const axisOn = (axis: ShaftAxis, motion: Motion): ShaftAxis => {
  const at = apply(motion, axis.at);
  if (axis.covariance === undefined) return { ...axis, at };
  const spread: Pattern = { ids: ['axis'], points: [axis.at], radii: [null], covariance: axis.covariance };
  return { ...axis, at, covariance: movePattern(motion, spread).covariance };
};

/**
 * From the first shaft to where the second is wanted, in the plate's frame, mm; nothing where they are to be in line.
 */
const apartOf = (job: Job, used: UsedPattern, shaft: Point, first: Motion): Point => {
  const spec = job.plate?.shafts ?? null;
  if (spec === null) return origin;
  const { apart, toward } = spec;
  if ('clockwise' in toward) return polar(apart.value, Math.PI / 2 - toward.clockwise);
  const at = used.pattern.points[used.pattern.ids.indexOf(toward.feature)];
  if (at === undefined) throw new RangeError(`mate: nothing places ${toward.feature}`);
  const way = subtract(apply(first, at), apply(first, shaft));
  return scale(way, apart.value / Math.max(norm(way), 1e-12));
};

/**
 * Both patterns in the plate's frame (see `motionOf`); `clocking` in radians clockwise, else the stated one. The second
 * face is turned about its shaft and its shaft laid over the first's; about its origin, laid over the first's, where
 * either axis is not known or the job asks for the centres to meet. Throws RangeError where a face or its pattern is
 * missing.
 */
export const mate = (
  job: Job,
  used: ReadonlyMap<string, UsedPattern>,
  clocking: number = statedClocking(job),
): readonly [MatedFace, MatedFace] => {
  const faces = matedFaces(job);
  const [one, other] = faces.map((face) => {
    const own = used.get(face.name);
    if (own === undefined) throw new RangeError(`mate: no pattern for ${face.name}`);
    return { face, used: own, axis: axisOf(face, own) };
  });
  if (one === undefined || other === undefined) throw new RangeError('mate: a plate joins two faces');
  const first = motionOf(one.face.viewed, 'first', clocking);
  const second = motionOf(other.face.viewed, 'second', clocking);
  const meet = (job.plate?.meet === 'shafts' || job.plate?.shafts != null) && one.axis !== null && other.axis !== null;
  const shift =
    meet && one.axis !== null && other.axis !== null
      ? subtract(
          add(apply(first, one.axis.at), apartOf(job, one.used, one.axis.at, first)),
          apply(second, other.axis.at),
        )
      : origin;
  const lay = (own: typeof one, motion: Motion, side: MatedFace['side']): MatedFace => {
    const moved = movePattern(motion, own.used.pattern);
    const at = moved.points[moved.ids.indexOf(own.face.centre ?? '')];
    return {
      face: own.face.name,
      pattern: moved,
      side,
      centre: at ?? apply(motion, origin),
      axis: own.axis === null ? null : axisOn(own.axis, motion),
      motion,
      radiusSigmas: own.used.radiusSigmas ?? new Map(),
    };
  };
  const moved = Math.hypot(shift.x, shift.y) < 1e-9 ? second : compose(translation(shift.x, shift.y), second);
  return [lay(one, first, 'A'), lay(other, moved, 'B')];
};
