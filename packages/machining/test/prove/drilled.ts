import { type Motion, type Point, type Random, apply, distance, flipX, identity } from '@fayplate/core';
import type { Face, Feature, Instrument, Job, Reading, ReadingKind } from '@fayplate/job';
import type { MatedFace, Plate } from '@fayplate/plate';
import { hole, job, plate as whole } from '../fixture.js';

const feature = (id: string, kind: Feature['kind'], diameter: number, thread: string | null = null): Feature => ({
  id,
  kind,
  diameter: { value: diameter, plusMinus: null },
  diameterFrom: 'job',
  thread,
  clock: null,
  vacant: false,
  stands: null,
  deep: null,
  lean: null,
  height: null,
});

/**
 * The adapter of the other tests, each hole with a part to meet: five studs of 8 mm in holes of 9, four M10 bolts
 * through holes of 11, registers.
 */
export const plate: Plate = {
  ...whole,
  holes: whole.holes.slice(0, 9).map((h) => ({
    ...h,
    limits: [h.diameter, h.diameter],
    fastening:
      h.as === 'clearance'
        ? { kind: 'stud', thread: 'M8', nominal: 8, largest: 8, head: null }
        : { kind: 'bolt', thread: 'M10', nominal: 10, largest: 10, head: null },
  })),
  bores: whole.bores.map((b) => (b.id === 'C2' ? { ...b, limits: [60.05, 60.05] } : b)),
};

const faces: readonly Face[] = [
  {
    ...job.faces[0]!,
    features: [feature('spigot', 'spigot', 60), ...[1, 2, 3, 4, 5].map((n) => feature(`P${n}`, 'stud', 8, 'M8'))],
  },
  {
    ...job.faces[1]!,
    features: [feature('register', 'bore', 80), ...[1, 2, 3, 4].map((n) => feature(`M${n}`, 'hole', 11))],
  },
];

export const caliper: Instrument = { name: 'caliper', measures: 'length', each: 0.05, zero: null };
export const readOut: Instrument = { name: 'read-out', measures: 'length', each: 0.02, zero: null };

/** Both parts exactly where the plate expects them, each place known to `sigma` mm. */
export const mated = (p: Plate = plate, sigma = 0.005): readonly MatedFace[] =>
  p.faces.map((face, k): MatedFace => {
    const holes = p.holes.filter((h) => h.part?.face === face);
    const centre = faces[k]!.centre!;
    const ids = [...holes.map((h) => h.feature!.slice(face.length + 1)), centre];
    const variance = (i: number): number => (i >= 2 * holes.length ? 0 : sigma ** 2);
    return {
      face,
      side: k === 0 ? 'A' : 'B',
      centre: { x: 0, y: 0 },
      motion: identity,
      axis: null,
      radiusSigmas: new Map(),
      pattern: {
        ids,
        points: [...holes.map(({ x, y }) => ({ x, y })), { x: 0, y: 0 }],
        radii: ids.map(() => null),
        covariance: Array.from({ length: 2 * ids.length }, (_, i) =>
          Array.from({ length: 2 * ids.length }, (_, j) => (i === j ? variance(i) : 0)),
        ),
      },
    };
  });

export type Places = ReadonlyMap<string, Point>;
export const placesOf = (p: Plate = plate): Places =>
  new Map([...p.holes, ...p.bores].map((h) => [h.id, { x: h.x, y: h.y }]));

/** Where the holes came out, changed by `motion` for those that `pick` chooses. */
export const moved = (places: Places, motion: Motion, pick: (id: string) => boolean = () => true): Places =>
  new Map([...places].map(([id, p]) => [id, pick(id) ? apply(motion, p) : p]));

let line = 0;
const reading = (
  kind: ReadingKind,
  features: readonly string[],
  value: number,
  instrument: Instrument,
  point: Point | null = null,
): Reading => ({
  id: `${++line}`,
  text: `${kind} ${features.join(' ')}`,
  kind,
  features,
  value,
  point,
  plusMinus: instrument.each,
  instrument: instrument.name,
  aside: false,
  note: null,
  unit: 'mm',
  place: { line, column: 1 },
});

/** `at` readings of every place, in a bench frame of their own, seen from the side stated. */
export const atAll = (
  places: Places,
  random: Random | null,
  side: 'A' | 'B' = 'B',
  bench: Motion = { turn: 0.7, shift: { x: 200, y: -30 }, mirrored: false },
): readonly Reading[] =>
  [...places].map(([id, p]) => {
    const seen = apply(bench, side === 'A' ? apply(flipX, p) : p);
    const noise =
      random === null
        ? { x: 0, y: 0 }
        : { x: (random.normal() * readOut.each) / 2, y: (random.normal() * readOut.each) / 2 };
    return reading('at', [id], 0, readOut, { x: seen.x + noise.x, y: seen.y + noise.y });
  });

/** Jaws over every pair that `pick` chooses, holes at their designed size. */
export const overPairs = (
  places: Places,
  pick: (a: string, b: string) => boolean = () => true,
  p: Plate = plate,
): readonly Reading[] => {
  const holes = p.holes.filter((h) => places.has(h.id));
  return holes.flatMap((a, i) =>
    holes
      .slice(i + 1)
      .flatMap((b) =>
        pick(a.id, b.id)
          ? [
              reading(
                'over',
                [a.id, b.id],
                distance(places.get(a.id)!, places.get(b.id)!) + (a.diameter + b.diameter) / 2,
                caliper,
              ),
            ]
          : [],
      ),
  );
};

/** A planned reading, taken. */
export const planned = (words: string, value: number): Reading => {
  const [kind, ...features] = words.split(' ');
  return reading(kind as ReadingKind, features, value, caliper);
};

export const drilledJob = (
  readings: readonly Reading[],
  more: Partial<Face> & { readonly clocks?: ReadonlyMap<string, number> } = {},
): Job => {
  const ids = [...new Set(readings.flatMap((r) => r.features))];
  const { clocks, ...rest } = more;
  return {
    ...job,
    faces,
    instruments: new Map([caliper, readOut].map((i) => [i.name, i])),
    plate: { drilling: 0.1, locate: new Map(), fasten: new Map() } as unknown as NonNullable<Job['plate']>,
    drilled:
      readings.length === 0
        ? null
        : {
            ...job.faces[0]!,
            name: 'drilled',
            viewed: 'from side B',
            centre: null,
            readings,
            features: ids.map((id) => ({
              ...feature(id, id.startsWith('C') ? 'bore' : 'hole', 1),
              diameter: null,
              diameterFrom: null,
              clock: clocks?.get(id) ?? null,
            })),
            ...rest,
          },
  };
};
export { hole };
