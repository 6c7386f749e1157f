import { type Point, polar } from '@fayplate/core';
import type { Face, FastenSpec, Feature, FeatureKind, Job, PlateSpec } from '@fayplate/job';
import type { UsedPattern } from '@fayplate/layout';
import { type Check, type DesignOptions, type Plate, designPlate } from '../../src/index.js';
import { face, feature, jobOf, patternOf, plateSpec, usedOf } from './faces.js';

/** One feature of a part in a test: where it is as viewed, and what it is. */
export interface Spot extends Partial<Feature> {
  readonly at: Point;
  readonly kind: FeatureKind;
  /** Diameter, mm, known without error. */
  readonly d?: number;
}

/** `n` spots alike on a circle, the first at `start` (radians counter-clockwise from +x): P1, P2, …. */
export const ring = (
  n: number,
  radius: number,
  start: number,
  spot: Omit<Spot, 'at'>,
): Readonly<Record<string, Spot>> =>
  Object.fromEntries(
    Array.from({ length: n }, (_, i) => [`P${i + 1}`, { ...spot, at: polar(radius, start + (2 * Math.PI * i) / n) }]),
  );

export interface Part {
  readonly spots: Readonly<Record<string, Spot>>;
  readonly face?: Partial<Face>;
}

/** A face and its pattern, exact unless a covariance is given. */
export const partOf = (
  name: string,
  part: Part,
  covariance?: UsedPattern['pattern']['covariance'],
): { readonly face: Face; readonly pattern: UsedPattern['pattern'] } => ({
  face: face(
    name,
    Object.entries(part.spots).map(([id, { d, kind, ...more }]) =>
      feature(id, kind, {
        diameter: d === undefined ? null : { value: d, plusMinus: null },
        diameterFrom: d === undefined ? null : 'job',
        ...more,
      }),
    ),
    part.face ?? {},
  ),
  pattern: patternOf(
    Object.fromEntries(Object.entries(part.spots).map(([id, s]) => [id, s.at])),
    Object.fromEntries(Object.entries(part.spots).map(([id, s]) => [id, s.d === undefined ? null : s.d / 2])),
    covariance,
  ),
});

export interface Bench {
  readonly job: Job;
  readonly used: ReadonlyMap<string, UsedPattern>;
}

export const fasten = (more: Partial<FastenSpec>): FastenSpec => ({
  as: 'clearance',
  fit: 'normal',
  head: null,
  sunk: 'none',
  thread: null,
  engagement: null,
  blind: false,
  washer: false,
  own: null,
  except: new Map(),
  ...more,
});

/** A job that joins `pump` (side A) and `motor` (side B). */
export const bench = (pump: Part, motor: Part, plate: Partial<PlateSpec> = {}, more: Partial<Job> = {}): Bench => {
  const first = partOf('pump', pump);
  const second = partOf('motor', motor);
  return {
    job: jobOf([first.face, second.face], plateSpec(['pump', 'motor'], { drilling: 0.05, ...plate }), more),
    used: usedOf({ pump: first.pattern, motor: second.pattern }),
  };
};

/** The plate of a bench, by few trials; throws with every fault. */
export const plateOf = ({ job, used }: Bench, options: Partial<DesignOptions> = {}): Plate => {
  const designed = designPlate(job, used, { stack: null, trials: 200, seed: 1, ...options });
  if (!designed.ok) throw new Error(designed.faults.join('\n'));
  return designed.plate;
};

export const checksOf = (plate: Plate, rule: string): readonly Check[] => plate.checks.filter((c) => c.rule === rule);

/** Studs of M8 on one circle and holes for M10 on another, a spigot each: a plate that goes together. */
export const soundBench = (plate: Partial<PlateSpec> = {}): Bench =>
  bench(
    {
      spots: {
        spigot: { kind: 'spigot', at: { x: 0, y: 0 }, d: 60, stands: 2.5 },
        ...ring(5, 72.5, Math.PI / 2, { kind: 'stud', thread: 'M8', d: 8, stands: 20 }),
      },
      face: { centre: 'spigot', up: 'P1' },
    },
    {
      spots: {
        spigot: { kind: 'spigot', at: { x: 0, y: 0 }, d: 60, stands: 2.5 },
        ...ring(4, 97.5, Math.PI / 2, { kind: 'hole', thread: 'M10', d: 11 }),
      },
      face: {
        centre: 'spigot',
        up: 'P1',
        flange: 12,
        shaft: 'spigot',
        shaftSizes: { diameter: 24, overKey: 27, coupling: null, nut: null },
      },
    },
    {
      bore: { diameter: 40, side: 'through', depth: null },
      locate: new Map([
        ['pump', { as: 'register', diameter: { value: 60.05, plusMinus: null }, depth: 3, fit: null }],
        ['motor', { as: 'register', diameter: { value: 60.05, plusMinus: null }, depth: 3, fit: null }],
      ]),
      fasten: new Map([
        ['pump', fasten({ head: 'nut', sunk: 'counterbored' })],
        ['motor', fasten({ as: 'tapped', thread: 'M10', engagement: { times: 1.5 } })],
      ]),
      outline: { shape: 'round', margin: 12, diameter: null },
      ...plate,
    },
  );
