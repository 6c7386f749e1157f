import { type Point, covarianceOfPoints, heading, largerEigenvalue, norm, polar, subtract } from '@fayplate/core';
import type { Face, LocateSpec, Reading } from '@fayplate/job';
import type { Joint, LocatedShaft, MatedFace, ShaftLean } from '../types.js';

/** Rise over the width that was swept: a dial at a radius r about the axis travels 2 r times the lean in one turn. */
const leanOf = (travel: number, radius: number): number => Math.atan(travel / (2 * radius));

/**
 * Where the face stands out farthest, as a direction of the plate's frame; null where the reading does not say or
 * nothing places it.
 */
const highOf = ({ runOut, features: [, , p, q] }: Reading, { pattern, motion }: MatedFace): number | null => {
  const high = runOut?.high ?? null;
  const at = (id: string | undefined): Point | undefined => pattern.points[pattern.ids.indexOf(id ?? '')];
  const [from, to] = [at(p), at(q)];
  if (high === null || from === undefined || to === undefined) return null;
  return heading(subtract(to, from)) + (motion.mirrored ? -high.turn : high.turn);
};

/**
 * How far a shaft is out of square to its face, as read by a dial on the face: with a direction where one was read,
 * else in any direction.
 */
const leansOf = (face: Face, mated: MatedFace): readonly ShaftLean[] =>
  face.readings.flatMap((r): readonly ShaftLean[] => {
    const radius = r.runOut?.radius ?? null;
    if (radius === null || r.aside) return [];
    const by = leanOf(r.value, radius);
    const high = highOf(r, mated);
    const across = high === null ? 0 : by * (r.runOut?.high?.within ?? 0);
    return [
      {
        face: face.name,
        toward: high === null ? null : polar(by, high),
        by,
        plusMinus: Math.hypot(leanOf(r.plusMinus, radius), across),
      },
    ];
  });

/** The angle between two shafts, radians: the known part and the unknown part. */
interface Tilted {
  /** The parts that have a direction, added as arrows. */
  readonly known: number;
  /** Those of no known direction, at the worst. */
  readonly open: number;
  /** ± of them all, each at its end. */
  readonly worst: number;
  /** The same, added as random errors. */
  readonly chance: number;
}

/**
 * The angle between two shafts that each lean from square to its own face: both lean out of their faces, so that what
 * leans the same way seen from one side adds up.
 */
export const tiltOf = (leans: readonly ShaftLean[]): Tilted => {
  const sum = leans.reduce((s, l) => ({ x: s.x + (l.toward?.x ?? 0), y: s.y + (l.toward?.y ?? 0) }), { x: 0, y: 0 });
  return {
    known: norm(sum),
    open: leans.reduce((s, l) => s + (l.toward === null ? l.by : 0), 0),
    worst: leans.reduce((s, l) => s + l.plusMinus, 0),
    chance: Math.hypot(...leans.map((l) => l.plusMinus)),
  };
};

const ways: Readonly<Record<LocateSpec['as'], LocatedShaft['by']>> = {
  register: 'register',
  'own dowels': 'dowels',
  'new dowels': 'set at assembly',
};

/**
 * Rows and columns of a pattern's covariance for these features, in their order; a feature that the pattern has not is
 * exact.
 */
const covarianceFor = (mated: MatedFace, ids: readonly string[]): readonly (readonly number[])[] => {
  return covarianceOfPoints(
    mated.pattern.covariance,
    ids.map((id) => mated.pattern.ids.indexOf(id)),
  );
};

/** The same with the shaft's own two rows last, as known from a circle's centre. */
const withAxis = (
  covariance: readonly (readonly number[])[],
  axis: readonly (readonly number[])[] | undefined,
): readonly (readonly number[])[] => {
  const n = covariance.length - 2;
  return axis === undefined
    ? covariance
    : covariance.map((row, i) => row.map((v, j) => (i >= n && j >= n ? (axis[i - n]?.[j - n] ?? 0) : v)));
};

/** ± of a place by the greater of its standard deviations, twice, mm. */
const plusMinusOf = (c: readonly (readonly number[])[]): number =>
  2 * Math.sqrt(largerEigenvalue(c[0]?.[0] ?? 0, c[0]?.[1] ?? 0, c[1]?.[1] ?? 0));

/**
 * One part's shaft on the plate: the face's `shaft`, else its centre, with what locates the part and what fastens it.
 */
export const locatedShaft = (
  face: Face,
  mated: MatedFace,
  joints: readonly Joint[],
  locate: LocateSpec | undefined,
): LocatedShaft => {
  const feature = mated.axis?.feature ?? null;
  const leans = leansOf(face, mated);
  return {
    face: face.name,
    shaft: mated.axis?.at ?? mated.centre,
    feature,
    by: locate === undefined ? 'fasteners' : ways[locate.as],
    ...(leans.length === 0 ? {} : { leans }),
    ranOut: face.readings.some((r) => r.runOut?.radius === null && !r.aside && r.features[1] === feature),
    ...(mated.axis?.by === 'circle'
      ? { circle: mated.axis.covariance === undefined ? null : plusMinusOf(mated.axis.covariance) }
      : {}),
    joints,
    covariance: withAxis(covarianceFor(mated, [...joints.map((j) => j.id), feature ?? '']), mated.axis?.covariance),
  };
};
