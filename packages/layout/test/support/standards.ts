import type { Point, Random } from '@fayplate/core';
import { type StandardFace, faceHoles } from '@fayplate/handbook';
import type { Face, Feature, FeatureKind } from '@fayplate/job';
import type { LocatedFace, LocatedFeature } from '@fayplate/survey';

/** A face as it is: centres, diameters, threads; mm. */
export interface Truth {
  readonly holes: readonly Point[];
  readonly size: number | null;
  readonly thread: string | null;
  readonly kind: 'hole' | 'stud';
  readonly register: { readonly kind: 'bore' | 'spigot'; readonly diameter: number } | null;
}

const feature = (id: string, kind: FeatureKind, diameter: number | null, thread: string | null): Feature => ({
  id,
  kind,
  diameter: diameter === null ? null : { value: diameter, plusMinus: 0.1 },
  diameterFrom: diameter === null ? null : 'job',
  thread,
  clock: null,
  vacant: false,
  stands: null,
  deep: null,
  lean: null,
  height: null,
});

/**
 * The face as measured: every coordinate and diameter with an independent normal error of standard deviation `sigma`.
 */
export const measuredFace = (
  truth: Truth,
  sigma: number,
  random: Random,
): { readonly face: Face; readonly located: LocatedFace } => {
  const off = (v: number): number => v + sigma * random.normal();
  const spots = [
    ...truth.holes.map((p, i) => ({ p, f: feature(`A${i + 1}`, truth.kind, truth.size, truth.thread) })),
    ...(truth.register === null
      ? []
      : [{ p: { x: 0, y: 0 }, f: feature('R', truth.register.kind, truth.register.diameter, null) }]),
  ];
  const features = new Map<string, LocatedFeature>(
    spots.map(({ p, f }) => [
      f.id,
      {
        id: f.id,
        x: off(p.x),
        y: off(p.y),
        radius: f.diameter === null ? null : off(f.diameter.value) / 2,
        radiusSigma: f.diameter === null ? null : sigma / 2,
        covariance: [
          [sigma ** 2, 0],
          [0, sigma ** 2],
        ],
        ellipse95: { major: 2.448 * sigma, minor: 2.448 * sigma, angle: 0 },
      },
    ]),
  );
  const face: Face = {
    name: 'part',
    viewed: 'from outside',
    centre: truth.register === null ? null : 'R',
    up: null,
    across: null,
    features: spots.map((s) => s.f),
    readings: [],
    layout: { kind: 'measured' },
    flange: null,
    shaft: null,
    rim: [],
    standard: null,
    shaftSizes: null,
  };
  const located: LocatedFace = {
    name: 'part',
    frame: { origin: 'mean of centres', direction: 'clocks' },
    features,
    readings: [],
    arrangements: { odds: 1, rivals: [], settle: null, overlaps: [], searched: true },
    explanations: [],
    telling: null,
    leftOut: [],
    unchecked: [],
    fit: { dof: 0, chi2: 0, p: null, sumRedundancy: 0 },
    suspects: [],
    undetermined: [],
    aside: [],
    freedoms: [],
    next: [],
    zeros: new Map(),
    hand: { settled: true, by: 'clocks' },
    bench: null,
    falseAlarm: 0,
    stopped: { converged: true, why: 'at rest', iterations: 1 },
    warnings: [],
    covarianceOf: (ids) =>
      ids.flatMap((_, i) =>
        [0, 1].map((a) => ids.flatMap((__, j) => [0, 1].map((b) => (i === j && a === b ? sigma ** 2 : 0)))),
      ),
  };
  return { face, located };
};

const uniform = (random: Random, from: number, to: number): number => from + (to - from) * random.uniform();

/**
 * A part made to a standard: within its limits, turned anyhow, its holes off their places by as much as the standard
 * allows.
 */
export const standardPart = (std: StandardFace, random: Random): Truth => {
  const turn = 2 * Math.PI * random.uniform();
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  const within = (limits: { readonly least: number; readonly most: number }): number =>
    uniform(random, limits.least, limits.most);
  return {
    holes: faceHoles(std).map(({ at }) => {
      const p = {
        x: at.x + (std.holes.place / 2) * random.normal(),
        y: at.y + (std.holes.place / 2) * random.normal(),
      };
      return { x: c * p.x - s * p.y, y: s * p.x + c * p.y };
    }),
    size: std.holes.size === null ? null : within(std.holes.size),
    thread: std.holes.thread,
    kind: 'hole',
    register: std.register === null ? null : { kind: std.register.kind, diameter: within(std.register) },
  };
};

/** Round in millimetres, round in sixteenths of an inch, or neither, as likely as one another. */
const chosenSize = (random: Random, least: number, most: number): number => {
  const raw = least * (most / least) ** random.uniform();
  const how = random.below(3);
  return how === 0 ? Math.round(raw) : how === 1 ? Math.round((raw / 25.4) * 16) * (25.4 / 16) : raw;
};

/** Clearance holes that are met most, mm. */
const usual = [5.5, 6.6, 7, 9, 10.5, 11, 13.5, 14, 17.5, 18, 22];
const threadsMet = ['M5', 'M6', 'M8', 'M10', 'M12', 'M16', '1/4-20 UNC', '5/16-18 UNC', '3/8-16 UNC', '1/2-13 UNC'];

/** A part that follows no standard: an equally divided circle or no pattern, of sizes as people choose them. */
export const ordinaryPart = (random: Random): Truth => {
  const count = [2, 3, 4, 4, 4, 5, 6, 6, 8, 12][random.below(10)] ?? 4;
  const circle = chosenSize(random, 35, 450);
  const equal = random.below(2) === 0;
  const turn = 2 * Math.PI * random.uniform();
  const holes = Array.from({ length: count }, (_, i) => {
    const a = equal ? turn + (2 * Math.PI * i) / count : 2 * Math.PI * random.uniform();
    const r = equal ? circle / 2 : (circle / 2) * uniform(random, 0.6, 1);
    return { x: r * Math.cos(a), y: r * Math.sin(a) };
  });
  const tapped = random.below(2) === 0;
  return {
    holes,
    size: tapped ? null : (usual[random.below(usual.length)] ?? 9),
    thread: tapped ? (threadsMet[random.below(threadsMet.length)] ?? 'M8') : null,
    kind: random.below(4) === 0 && tapped ? 'stud' : 'hole',
    register:
      random.below(4) === 0
        ? null
        : { kind: random.below(2) === 0 ? 'bore' : 'spigot', diameter: chosenSize(random, 0.3 * circle, 0.9 * circle) },
  };
};
