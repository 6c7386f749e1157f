import type { Point } from '@fayplate/core';
import { parseThread } from '@fayplate/handbook';
import type { Face, Feature, Job } from '@fayplate/job';
import type { GoesOnSpec, Joint, MatedFace, Plate, PlateBore, PlateHole } from '@fayplate/plate';

/** A hole or bore of the plate where its readings put it, with what they say of its size. */
export interface Measured {
  readonly at: Point;
  /** Measured diameter and its ±, mm; null: as designed. */
  readonly diameter: { readonly value: number; readonly plusMinus: number } | null;
}

export interface FaceJoints {
  readonly spec: GoesOnSpec;
  /** Metal that easing takes from each joint's hole for every millimetre, mm³/mm, in the order of the joints. */
  readonly costs: readonly number[];
  /** The plate hole or bore of each joint. */
  readonly holes: readonly string[];
  readonly leftOut: readonly string[];
}

interface Drafted {
  readonly joint: Joint;
  readonly cost: number;
  readonly hole: string;
}

/**
 * What must meet for one face: every fastener in its hole, dowels and register as locators. Measured holes stand where the readings put them, without making
 * error; others stay where they were designed with the job's drilling ±. The covariance is of the part's places and the measured ones together.
 */
export const faceJoints = (plate: Plate, job: Job, mated: MatedFace, measured: ReadonlyMap<string, Measured>, covariance: (ids: readonly string[]) => readonly (readonly number[])[]): FaceJoints => {
  const face = job.faces.find((f) => f.name === mated.face);
  const leftOut: string[] = [];
  const drafted: Drafted[] = [];
  const making = job.plate?.drilling ?? USUAL_DRILLING;
  for (const cut of [...plate.holes, ...plate.bores]) {
    const id = featureOn(cut.feature, mated.face);
    if (id === null || face === undefined) continue;
    const part = partPlace(id, face, mated);
    const feature = face.features.find((f) => f.id === id);
    if (part === null || feature === undefined) {
      leftOut.push(`${id}: its own place on the ${mated.face} is not known`);
      continue;
    }
    const made = measured.get(cut.id) ?? null;
    const room = 'as' in cut ? holeRoom(cut, feature, made) : boreRoom(cut, feature, made);
    if (room === null) {
      leftOut.push(`${id}: the diameters that meet there are not both known`);
      continue;
    }
    drafted.push({ hole: cut.id, cost: 'as' in cut ? cut.diameter * (cut.land[1] - cut.land[0]) : 0, joint: { id, ...room, plate: made?.at ?? { x: cut.x, y: cut.y }, part, made: made === null ? making : 0 } });
  }
  return {
    spec: { joints: drafted.map((d) => d.joint), covariance: summed(drafted, mated, measured, covariance) },
    costs: drafted.map((d) => d.cost),
    holes: drafted.map((d) => d.hole),
    leftOut,
  };
};

/** Making error of a hole where the job does not say: paper and punch, the worse of the usual ways, ± mm (common practice). */
export const USUAL_DRILLING = 0.5;

const featureOn = (name: string | null, face: string): string | null => (name?.startsWith(`${face}.`) === true ? name.slice(face.length + 1) : null);

const partPlace = (id: string, face: Face, mated: MatedFace): Point | null => mated.pattern.points[mated.pattern.ids.indexOf(id)] ?? (id === face.centre ? mated.centre : null);

type Meeting = Pick<Joint, 'role' | 'room' | 'along'>;

const half = (hole: readonly [number, number], pin: readonly [number, number]): readonly [number, number] => [(hole[0] - pin[1]) / 2, (hole[1] - pin[0]) / 2];

/** Least and greatest diameter of a hole: as measured, else within its limits. */
const sizes = (cut: PlateHole | PlateBore, made: Measured | null): readonly [number, number] => {
  if (made?.diameter !== null && made?.diameter !== undefined) return [made.diameter.value - made.diameter.plusMinus, made.diameter.value + made.diameter.plusMinus];
  return cut.limits ?? [cut.diameter, cut.diameter];
};

const featureSizes = (f: Feature): readonly [number, number] | null => (f.diameter === null ? null : [f.diameter.value - (f.diameter.plusMinus ?? 0), f.diameter.value + (f.diameter.plusMinus ?? 0)]);

/** Whether the part's own hole holds the fastener by its thread. */
export const isTappedPart = (f: Feature): boolean => {
  const thread = f.thread === null ? null : parseThread(f.thread);
  if (f.kind !== 'hole' || thread === null) return false;
  return f.diameter === null || f.diameterFrom === 'thread' || f.diameter.value < (thread.major + thread.minor) / 2;
};

const holeRoom = (hole: PlateHole, feature: Feature, made: Measured | null): Meeting | null => {
  const part = featureSizes(feature);
  if (hole.as === 'dowel' || hole.as === 'slot') {
    if (part === null) return null;
    const along = hole.slot === null ? null : hole.slot.angle;
    return { role: 'locator', room: half(sizes(hole, made), part), along };
  }
  if (hole.as === 'tapped' || hole.as === 'set stud') {
    const major = hole.thread?.major ?? null;
    return major === null || part === null || feature.kind !== 'hole' ? null : { role: 'fastener', room: half(part, [major, major]), along: null };
  }
  if (hole.fastener === null) return null;
  const own = half(sizes(hole, made), [hole.fastener, hole.fastener]);
  const loosePart = feature.kind === 'hole' && !isTappedPart(feature) && part !== null ? half(part, [hole.fastener, hole.fastener]) : [0, 0];
  return { role: 'fastener', room: [own[0] + Math.max(0, loosePart[0] ?? 0), own[1] + Math.max(0, loosePart[1] ?? 0)], along: null };
};

/** A register: the part's spigot in the plate's recess or bore, or the plate's spigot in the part's bore. */
const boreRoom = (bore: PlateBore, feature: Feature, made: Measured | null): Meeting | null => {
  const part = featureSizes(feature);
  if (part === null || bore.kind === 'relief') return null;
  const own = sizes(bore, made);
  return { role: 'locator', room: bore.kind === 'spigot' ? half(part, own) : half(own, part), along: null };
};

/** Covariance of part less plate, joint by joint: the two are measured apart, so their covariances add. */
const summed = (drafted: readonly Drafted[], mated: MatedFace, measured: ReadonlyMap<string, Measured>, covariance: (ids: readonly string[]) => readonly (readonly number[])[]): readonly (readonly number[])[] => {
  const holes = drafted.map((d) => d.hole);
  const known = holes.filter((h) => measured.has(h));
  const plate = covariance(known);
  const at = (i: number): readonly [number, number] => [mated.pattern.ids.indexOf(drafted[i]?.joint.id ?? ''), known.indexOf(holes[i] ?? '')];
  const pick = (c: readonly (readonly number[])[], i: number, j: number, r: number, s: number): number => (i < 0 || j < 0 ? 0 : (c[2 * i + r]?.[2 * j + s] ?? 0));
  return Array.from({ length: 2 * drafted.length }, (_, r) =>
    Array.from({ length: 2 * drafted.length }, (_, s) => {
      const [i, k] = at(r >> 1);
      const [j, l] = at(s >> 1);
      return pick(mated.pattern.covariance, i, j, r & 1, s & 1) + pick(plate, k, l, r & 1, s & 1);
    }),
  );
};

