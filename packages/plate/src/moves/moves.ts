import { type Point, apply, compose, linearPart, subtract, translation } from '@fayplate/core';
import type { Face, FacePlace, Job, Length, MovedEnd, PlaceSpot } from '@fayplate/job';
import { motionOf } from '../mate/mate.js';
import { knownGasket } from '../stack/gasket.js';
import type { InSpace, MatedFace, Moved, MovedSpan, Moves, Plate } from '../types.js';

/** Along the shaft, mm: how far the second part's face lies from the first's, with its ±. */
interface Stood {
  /** Where a place of the part's own frame, as viewed, lies as drawn. */
  readonly lay: (p: Point) => Point;
  /** The 2 × 2 part of it. */
  readonly turn: ReturnType<typeof linearPart>;
  /** Where its face lies from the first part's, and which way is behind it. */
  readonly face: Length;
  readonly behind: 1 | -1;
  /** ± of its shaft's place, mm. */
  readonly off: number;
}

const rootSum = (...all: readonly number[]): number => Math.hypot(...all);

const spaceOf = ({ x, y, behind }: PlaceSpot, s: Stood): InSpace => {
  const at = s.lay({ x: x.value, y: y.value });
  const [[xx, xy], [yx, yy]] = s.turn;
  return {
    x: at.x,
    y: at.y,
    z: s.face.value + s.behind * behind.value,
    within: {
      x: rootSum(xx * x.plusMinus, xy * y.plusMinus, s.off),
      y: rootSum(yx * x.plusMinus, yy * y.plusMinus, s.off),
      z: rootSum(behind.plusMinus, s.face.plusMinus),
    },
  };
};

const zeroLength: Length = { value: 0, plusMinus: 0 };

/**
 * How the old part stood: its face on the old plate with its shims, or on the first part's own face, its shaft in line
 * with the first's.
 */
const oldStood = (job: Job, face: Face, mated: readonly MatedFace[]): Stood => {
  const [first] = mated;
  const own = motionOf(face.viewed, 'second', 0);
  const axis = first?.axis?.at ?? first?.centre ?? { x: 0, y: 0 };
  const motion = compose(translation(axis.x, axis.y), own);
  const plate = job.old;
  const shims = plate?.shims ?? zeroLength;
  const gaskets = (job.plate?.between ?? []).reduce((sum, name) => sum + knownGasket(job, name), 0);
  return {
    lay: (p) => apply(motion, p),
    turn: linearPart(motion),
    face: {
      value: gaskets + (plate?.thickness.value ?? 0) + shims.value,
      plusMinus: rootSum(plate?.thickness.plusMinus ?? 0, shims.plusMinus),
    },
    behind: 1,
    off: 0,
  };
};

/** How each part stands on the new plate; gaskets are counted as the stack has them, before and after. */
const newStood = (job: Job, plate: Plate, shims: number, mated: MatedFace, second: boolean): Stood => {
  const gaskets = (job.plate?.between ?? []).reduce((sum, name) => sum + knownGasket(job, name), 0);
  return {
    lay: (p) => apply(mated.motion, p),
    turn: linearPart(mated.motion),
    face: second
      ? { value: gaskets + plate.thickness + shims, plusMinus: plate.thicknessWithin ?? job.stack?.unknown.made ?? 0 }
      : zeroLength,
    behind: second ? 1 : -1,
    off: second ? (plate.alignment?.offset.p95 ?? 0) : 0,
  };
};

/**
 * How far apart two places lie in space, and the ± of it: each part's own, along the line between them; what moves both
 * alike drops out.
 */
const apart = (a: Moved, b: Moved, of: 'is' | 'was'): Length | null => {
  const [p, q] = [a[of], b[of]];
  if (p === null || q === null) return null;
  const [x, y, z] = [q.x - p.x, q.y - p.y, q.z - p.z];
  const value = Math.hypot(x, y, z);
  const along = (v: number): number => (value === 0 ? 1 : v / value);
  const share = ({ within }: InSpace): number => rootSum(along(x) * within.x, along(y) * within.y, along(z) * within.z);
  const common = a.face === b.face ? a.common[of] : { plane: 0, along: 0 };
  const less = 2 * (rootSum(along(x), along(y)) * common.plane) ** 2 + 2 * (along(z) * common.along) ** 2;
  return { value, plusMinus: Math.sqrt(Math.max(0, share(p) ** 2 + share(q) ** 2 - less)) };
};

/**
 * Where every place of the two parts comes to lie on the new plate, against where it was: x and y as the plate is
 * drawn, z along the shaft from the first part's face toward the second. A place of the first part stays where it is,
 * unless the old part had it elsewhere.
 */
export const movesOn = (job: Job, plate: Plate, mated: readonly MatedFace[], shims: number): Moves | null => {
  const placed = mated.flatMap((m, i): readonly Moved[] => {
    const face = job.faces.find((f) => f.name === m.face);
    if (face === undefined || (face.places ?? []).length === 0) return [];
    const second = i === 1;
    const now = newStood(job, plate, shims, m, second);
    const before = second ? oldStood(job, face, mated) : now;
    return (face.places ?? []).map((p: FacePlace): Moved => {
      const is = spaceOf(p.now, now);
      const was = p.old !== null ? spaceOf(p.old, before) : second ? null : is;
      return {
        face: face.name,
        place: p.name,
        is,
        was,
        stays: !second && p.old === null,
        common: {
          is: { plane: now.off, along: now.face.plusMinus },
          was: { plane: before.off, along: before.face.plusMinus },
        },
      };
    });
  });
  if (placed.length === 0) return null;
  const find = ({ face, place }: MovedEnd): Moved | undefined =>
    placed.find((p) => p.face === face && p.place === place);
  return {
    places: placed,
    spans: (job.moves ?? []).flatMap((m): readonly MovedSpan[] => {
      const [a, b] = [find(m.between[0]), find(m.between[1])];
      if (a === undefined || b === undefined) return [];
      const is = apart(a, b, 'is');
      return is === null ? [] : [{ ...m, is, was: apart(a, b, 'was') }];
    }),
  };
};

/** By how much a place moves, with its ±; null where it was is not said. */
export const moveOf = ({ is, was, stays }: Moved): InSpace | null =>
  was === null
    ? null
    : {
        ...subtract(is, was),
        z: is.z - was.z,
        within: stays
          ? { x: 0, y: 0, z: 0 }
          : {
              x: rootSum(is.within.x, was.within.x),
              y: rootSum(is.within.y, was.within.y),
              z: rootSum(is.within.z, was.within.z),
            },
      };
