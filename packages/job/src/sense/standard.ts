import { type Measure, formatLength } from '@fayplate/core';
import { type StandardFace, faceHoles, facesHeld, namesNear, standardFace, standardFaces } from '@fayplate/handbook';
import type { JobFile } from '../schema/file.js';
import type { Face, FaceStandard, Reading, SizeLimits } from '../types.js';
import { placeIn } from '../source/source.js';
import { spanAt } from '../source/tree.js';
import { type Context, faultAt } from './context.js';

type Written = NonNullable<JobFile['faces']>[string];
type WrittenFeature = NonNullable<Written['features']>[string];

/** What a face takes from the standard that it names. */
interface FromStandard {
  readonly standard: FaceStandard;
  /** Its features as if they had been written, B1, B2 … clockwise, after the register. */
  readonly features: ReadonlyMap<string, WrittenFeature>;
  readonly centre: string | null;
  readonly thick: number | null;
  /** Its outside, as the register with the metal about it; empty where it is not round or not known. */
  readonly rim: Face['rim'];
  /** Diameter of its shaft, where the standard or the frame that was named has one; mm. */
  readonly shaft: number | null;
  /**
   * Where each feature is, with the standard's tolerance of place for its ±; `bench` when the face has bench places of
   * its own.
   */
  readonly readings: (bench: boolean) => readonly Reading[];
}

/** ± of the register's own centre, mm: the holes are placed from it, so it has none of its own. */
const NONE = 0.001;

const held = (s: SizeLimits): Measure => ({ value: (s.least + s.most) / 2, plusMinus: (s.most - s.least) / 2 });

interface Spot {
  readonly id: string;
  readonly x: number;
  readonly y: number;
  readonly place: number;
}

/** Turned so that the hole named by `up` is at 12 o'clock, and seen from behind where the face is. */
const spotsOf = (face: StandardFace, register: string | null, written: Written): readonly Spot[] => {
  const holes = [
    ...faceHoles(face).map((h) => ({ id: h.id, ...h.at, place: face.holes.place })),
    ...(face.dowel === null ? [] : [{ id: 'D1', x: 0, y: face.holes.circle / 2, place: face.dowel.place }]),
  ];
  const flip = written.viewed === undefined || written.viewed === 'from outside' ? 1 : -1;
  const seen = holes.map((h) => ({ ...h, x: flip * h.x }));
  const up = seen.find((h) => h.id === written.up);
  const by = up === undefined ? 0 : Math.PI / 2 - Math.atan2(up.y, up.x);
  const [c, s] = [Math.cos(by), Math.sin(by)];
  return [
    ...(register === null ? [] : [{ id: register, x: 0, y: 0, place: NONE }]),
    ...seen.map((h) => ({ ...h, x: c * h.x - s * h.y, y: s * h.x + c * h.y })),
  ];
};

/** The features of a standard face by name, in the words of the job file. */
const featuresOf = (
  face: StandardFace,
  register: string | null,
  spots: readonly Spot[],
): ReadonlyMap<string, WrittenFeature> => {
  const map = new Map<string, WrittenFeature>();
  if (face.register !== null && register !== null)
    map.set(register, {
      kind: face.register.kind,
      diameter: held(face.register),
      ...(face.register.reach === null
        ? {}
        : face.register.kind === 'spigot'
          ? { stands: face.register.reach }
          : { deep: face.register.reach }),
    });
  for (const { id, x, y } of spots) {
    if (id === register) continue;
    const clock = Math.atan2(y, x);
    if (id === 'D1' && face.dowel !== null) map.set(id, { kind: 'hole', diameter: held(face.dowel), clock });
    else
      map.set(id, {
        kind: 'hole',
        clock,
        ...(face.holes.thread === null ? {} : { thread: face.holes.thread }),
        ...(face.holes.size === null ? {} : { diameter: held(face.holes.size) }),
      });
  }
  return map;
};

/** Distances between all the spots: what is said of a face whose bench frame its own readings use. */
const distances = (spots: readonly Spot[]) =>
  spots.flatMap((a, i) =>
    spots.slice(i + 1).map((b) => ({
      kind: 'centres' as const,
      features: [a.id, b.id],
      value: Math.hypot(a.x - b.x, a.y - b.y),
      point: null,
      plusMinus: Math.hypot(a.place, b.place),
    })),
  );

const places = (spots: readonly Spot[]) =>
  spots.map(({ id, x, y, place }) => ({
    kind: 'at' as const,
    features: [id],
    value: 0,
    point: { x, y },
    plusMinus: place,
  }));

const readingsOf = (context: Context, keys: readonly PropertyKey[], spots: readonly Spot[], bench: boolean) => {
  const place = placeIn(context.source, spanAt(context.tree, [...keys, 'standard'], 'value').from);
  const own = (v: number): string => `${formatLength(v, context.unit)} ${context.unit}`;
  return (bench ? distances(spots) : places(spots)).map((r): Reading => ({
    ...r,
    id: `standard ${r.features.join('-')}`,
    text: `${r.kind} ${r.features.join(' ')} = ${
      r.point === null ? own(r.value) : `(${own(r.point.x)}, ${own(r.point.y)})`
    } ± ${own(r.plusMinus)}`,
    instrument: null,
    aside: false,
    note: 'from the standard',
    unit: context.unit,
    place,
  }));
};

/** A disc about the register; the square of a stepping motor and the ears of a pump are not. */
const rimOf = ({ outside, register: about, what }: StandardFace, register: string | null): Face['rim'] =>
  outside === null || about === null || register === null || what === 'stepping motor face' || outside <= about.nominal
    ? []
    : [{ feature: register, margin: (outside - about.most) / 2 }];

/** Of several frames on one flange the one that was named: `90 B5`. */
const shaftOf = ({ shafts }: StandardFace, named: string): number | null => {
  const [only, ...more] = shafts;
  if (more.length === 0) return only?.diameter ?? null;
  const frames = shafts.filter((s) => named.split(/[^\d]+/).includes(s.frame.replace(/\D/g, '')));
  return frames.length === 1 ? (frames[0]?.diameter ?? null) : null;
};

/** The standard that a face names, or null where it names none or one that is not held. */
export const standardOf = (context: Context, keys: readonly PropertyKey[], written: Written): FromStandard | null => {
  if (written.standard === undefined) return null;
  const face = standardFace(written.standard);
  if (face === null) {
    const [nearest, ...more] = namesNear(written.standard);
    faultAt(
      context,
      [...keys, 'standard'],
      'unknown-name',
      'a standard face on file: ' +
        `${facesHeld.join('; ')}${more.length === 0 ? '' : `. Near it: ${[nearest, ...more].join(', ')}`}`,
      {
        found: written.standard,
        among: [...(nearest === undefined ? [] : [nearest]), ...standardFaces().map((f) => f.name)],
      },
    );
    return null;
  }
  const register = face.register?.kind ?? null;
  const spots = spotsOf(face, register, written);
  const size = face.holes.size;
  return {
    standard: {
      name: face.name,
      standard: face.standard,
      read: face.read,
      source: face.source,
      disagree: face.disagree,
      place: face.holes.place,
      limits: new Map<string, SizeLimits>([
        ...(face.register === null || register === null ? [] : [[register, face.register] as const]),
        ...(size === null ? [] : faceHoles(face).map((h) => [h.id, size] as const)),
        ...(face.dowel === null ? [] : [['D1', face.dowel] as const]),
      ]),
    },
    features: featuresOf(face, register, spots),
    centre: register,
    thick: face.thick,
    rim: rimOf(face, register),
    shaft: shaftOf(face, written.standard),
    readings: (bench) => readingsOf(context, keys, spots, bench),
  };
};

/**
 * Whether readings or the rim use the bench frame: then the standard's places would stand in a frame that is not
 * theirs.
 */
export const usesBench = (readings: readonly Reading[], rim: Face['rim']): boolean =>
  rim.some((p) => 'at' in p || 'along' in p) ||
  readings.some((r) => !r.aside && (r.kind === 'at' || r.kind === 'touch'));
