import { parseThread, type StandardFace, standardFaces } from '@fayplate/handbook';
import type { Face, Feature } from '@fayplate/job';
import type { LocatedFace, LocatedFeature } from '@fayplate/survey';
import { logFactorial, logSum } from '../prior/length.js';
import { type EqualCircle, type Measured, equalCircle } from './circle.js';
import {
  ANY_THREAD,
  CHANCE,
  OTHER_THREAD,
  SIDES,
  anyHole,
  anySize,
  chanceOfCount,
  chanceOfRow,
  nearLimits,
  nearSize,
} from './prior.js';

/** One thing that was measured beside what the standard has, mm; for a thread the names. */
export interface Evidence {
  readonly what: 'bolt circle' | 'equal spacing' | 'register' | 'holes' | 'thread';
  readonly measured: number | string;
  readonly plusMinus: number;
  /** Limits of a size, alike where it has none; else in words. */
  readonly has: readonly [least: number, most: number] | string;
  readonly agrees: boolean;
}

/** A standard that a face may be. */
export interface Recognised {
  readonly face: StandardFace;
  /** `is`: the standard part itself; `takes`: what was made to take one, its register the other way round. */
  readonly side: 'is' | 'takes';
  readonly odds: number;
  readonly evidence: readonly Evidence[];
}

/** What a face was recognised as. */
export interface Recognition {
  readonly name: string;
  /** Likeliest first, those with odds of 1 in 1000 and more. */
  readonly candidates: readonly Recognised[];
  /** Odds that it is no standard that is held. */
  readonly none: number;
  /** Index of the candidate that is sure: odds 0.9, and more than its circle to go by; null where none is. */
  readonly sure: number | null;
}

/** What a candidate needs to be called sure. */
const SURE = 0.9;
/** ± that a hole's edge, worn or burred, adds to a measured hole, mm. */
const BURR = 0.15;
/** Standard uncertainty of a hole's place in a part that follows no standard, mm. */
const ORDINARY = 0.05;

interface Facts {
  readonly measured: Measured;
  readonly count: number;
  readonly register: { readonly feature: Feature; readonly at: LocatedFeature } | null;
  readonly hole: { readonly size: number; readonly sigma: number } | null;
  readonly threads: readonly string[];
  /** Every fastener is a stud, or every one a plain hole, or every one tapped. */
  readonly sort: 'studs' | 'plain' | 'tapped' | 'mixed';
}

const factsOf = (face: Face, located: LocatedFace): Facts | null => {
  const fasteners = face.features.filter(
    (f) => (f.kind === 'hole' || f.kind === 'stud') && !f.vacant && f.id !== face.centre && located.features.has(f.id),
  );
  if (fasteners.length < 2 || fasteners.length > 24) return null;
  const round = face.features.filter((f) => (f.kind === 'bore' || f.kind === 'spigot') && located.features.has(f.id));
  const feature = round.find((f) => f.id === face.centre) ?? (round.length === 1 ? round[0] : undefined);
  const at = feature === undefined ? undefined : located.features.get(feature.id);
  const ids = [...fasteners.map((f) => f.id), ...(feature === undefined ? [] : [feature.id])];
  const points = ids.flatMap((id) => located.features.get(id) ?? []);
  const plain = fasteners.filter((f) => f.kind === 'hole' && f.thread === null);
  const radii = plain.flatMap((f) => {
    const l = located.features.get(f.id);
    return l === undefined || l.radius === null ? [] : [{ size: 2 * l.radius, sigma: 2 * (l.radiusSigma ?? 0) }];
  });
  const threads = [
    ...new Set(fasteners.flatMap((f) => (f.thread === null ? [] : [parseThread(f.thread)?.name ?? f.thread]))),
  ];
  return {
    count: fasteners.length,
    measured: {
      points: points.map((p) => ({ x: p.x, y: p.y })),
      count: fasteners.length,
      covariance: located.covarianceOf(ids),
    },
    register: feature === undefined || at === undefined ? null : { feature, at },
    hole:
      radii.length < fasteners.length
        ? null
        : {
            size: radii.reduce((s, r) => s + r.size, 0) / radii.length,
            sigma: Math.max(...radii.map((r) => r.sigma)),
          },
    threads,
    sort: fasteners.every((f) => f.kind === 'stud')
      ? 'studs'
      : plain.length === fasteners.length
        ? 'plain'
        : fasteners.every((f) => f.kind === 'hole' && f.thread !== null)
          ? 'tapped'
          : 'mixed',
  };
};

const apart = (off: number, sigma: number): boolean => Math.abs(off) > 3 * sigma + 1e-9;

/**
 * log of how much likelier the sizes other than the circle are under a standard than where nothing is known, and what
 * they say.
 */
const besideCircle = (facts: Facts, std: StandardFace, side: 'is' | 'takes') => {
  const evidence: Evidence[] = [];
  let log = 0;
  const { register, hole, threads, sort } = facts;
  if (register !== null && register.at.radius !== null && std.register !== null) {
    const size = 2 * register.at.radius;
    const sigma = Math.max(2 * (register.at.radiusSigma ?? 0), 0.005);
    const kind = side === 'is' ? std.register.kind : std.register.kind === 'spigot' ? 'bore' : 'spigot';
    const width = std.register.most - std.register.least;
    // What takes a register is a sliding fit on it: larger than a spigot, smaller than a bore, by up to a few tenths.
    const [least, most] =
      side === 'is'
        ? [std.register.least, std.register.most]
        : kind === 'bore'
          ? [std.register.nominal, std.register.nominal + Math.max(0.1, 2 * width)]
          : [std.register.nominal - Math.max(0.1, 2 * width), std.register.nominal];
    if (kind === register.feature.kind)
      log += Math.log(nearLimits(size, sigma, least, most) + 1e-12) - Math.log(anySize(size, sigma));
    else log += Math.log(0.002);
    evidence.push({
      what: 'register',
      measured: size,
      plusMinus: 2 * sigma,
      has: [least, most],
      agrees: kind === register.feature.kind && size + 3 * sigma >= least && size - 3 * sigma <= most,
    });
  }
  const own = std.holes;
  const wantsThread = side === 'is' ? own.thread : null;
  if (hole !== null && own.size !== null && side === 'is') {
    const sigma = Math.hypot(hole.sigma, BURR);
    log += Math.log(nearLimits(hole.size, sigma, own.size.least, own.size.most) + 1e-9) - Math.log(anyHole(hole.size));
    evidence.push({
      what: 'holes',
      measured: hole.size,
      plusMinus: 2 * hole.sigma,
      has: [own.size.least, own.size.most],
      agrees: hole.size + 3 * sigma >= own.size.least && hole.size - 3 * sigma <= own.size.most,
    });
  }
  const wanted = wantsThread === null ? null : (parseThread(wantsThread)?.name ?? wantsThread);
  if (wanted !== null) {
    const agrees = sort === 'tapped' && threads.length === 1 && threads[0] === wanted;
    const known = sort === 'tapped' && threads.length > 0;
    if (known) log += Math.log(agrees ? 1 / ANY_THREAD : OTHER_THREAD / (1 - ANY_THREAD));
    else log += Math.log(OTHER_THREAD);
    evidence.push({
      what: 'thread',
      measured: known ? threads.join(', ') : sort === 'plain' ? 'plain holes' : sort,
      plusMinus: 0,
      has: wanted,
      agrees,
    });
  } else if (side === 'is' && own.size !== null && sort !== 'plain') {
    log += Math.log(OTHER_THREAD);
    evidence.push({ what: 'thread', measured: sort, plusMinus: 0, has: 'plain holes', agrees: false });
  } else if (side === 'takes' && (own.size === null ? sort !== 'plain' : sort === 'plain')) {
    log += Math.log(OTHER_THREAD);
    evidence.push({
      what: 'thread',
      measured: sort === 'plain' ? 'plain holes' : sort,
      plusMinus: 0,
      has: own.size === null ? 'plain holes for its screws' : 'studs or tapped holes for its bolts',
      agrees: false,
    });
  }
  return { log, evidence };
};

/**
 * `bare`: the circle with the ± of the readings alone, to be shown; `fit`: with the standard's own tolerance, to be
 * judged by.
 */
const circleEvidence = (bare: EqualCircle, fit: EqualCircle, std: StandardFace): readonly Evidence[] => [
  {
    what: 'bolt circle',
    measured: bare.diameter,
    plusMinus: 2 * bare.sigma,
    has: [std.holes.circle, std.holes.circle],
    agrees: !apart(fit.diameter - std.holes.circle, fit.sigma),
  },
  ...(fit.dof > 0 && fit.chi2 > fit.dof + 4 * Math.sqrt(2 * fit.dof)
    ? [
        {
          what: 'equal spacing' as const,
          measured: 'the holes miss equal spacing',
          plusMinus: 0,
          has: 'equal spacing',
          agrees: false,
        },
      ]
    : []),
];

/**
 * Which standard face a measured one is, with odds. Every standard of as many holes, as the part itself or as what
 * takes it, stands against an equally divided circle of any size (with the layout's prior of sizes) and against no
 * pattern at all; the evidence is the centres with their joint covariance, and beside them the register, the holes and
 * the thread. Null where there is nothing to compare: fewer than two holes or studs, or a face that names its standard
 * itself.
 */
export const recognise = (face: Face, located: LocatedFace): Recognition | null => {
  if (face.standard !== null || !located.stopped.converged) return null;
  const facts = factsOf(face, located);
  if (facts === null) return null;
  const { count } = facts;
  const ordinary = equalCircle(facts.measured, ORDINARY);
  const bare = equalCircle(facts.measured, 0);
  if (ordinary === null || bare === null) return null;
  const middle = facts.measured.points[count] ?? { x: 0, y: 0 };
  const extent =
    1.2 * Math.max(...facts.measured.points.slice(0, count).map((p) => Math.hypot(p.x - middle.x, p.y - middle.y)), 1);
  const area = Math.log(Math.PI * extent * extent);
  // Centre, direction and which hole is which, alike for every equal division.
  const pose = -area - Math.log(2 * Math.PI) - logFactorial(count - 1);
  const none = logSum([
    Math.log(CHANCE.equal * chanceOfCount(count)) +
      pose +
      ordinary.log +
      Math.log(2 * anySize(ordinary.diameter, ordinary.sigma)),
    Math.log(CHANCE.irregular * chanceOfCount(count)) - facts.measured.points.length * area,
  ]);
  const fits = new Map<number, EqualCircle | null>();
  const fitFor = (place: number): EqualCircle | null => {
    const known = fits.get(place);
    if (known !== undefined) return known;
    const fit = equalCircle(facts.measured, place / 2);
    fits.set(place, fit);
    return fit;
  };
  const all = standardFaces()
    .filter((f) => f.holes.count === count)
    .flatMap((std) => {
      const fit = fitFor(std.holes.place);
      if (fit === null) return [];
      const circle =
        Math.log(CHANCE.standard * (chanceOfRow().get(std) ?? 0)) +
        pose +
        fit.log +
        Math.log(2 * nearSize(fit.diameter, fit.sigma, std.holes.circle) + 1e-300);
      return (['is', 'takes'] as const).map((side) => {
        const { log, evidence } = besideCircle(facts, std, side);
        return {
          face: std,
          side,
          log: circle + Math.log(SIDES[side]) + log,
          evidence: [...circleEvidence(bare, fit, std), ...evidence],
        };
      });
    });
  const total = logSum([none, ...all.map((a) => a.log)]);
  const candidates = all
    .map(({ log, ...rest }): Recognised => ({ ...rest, odds: Math.exp(log - total) }))
    .filter((c) => c.odds >= 0.001)
    .toSorted((a, b) => b.odds - a.odds);
  const [first] = candidates;
  // Rows of several standards may share every size that was measured: FF165 and FT165 differ in their holes alone.
  const twins = candidates.filter((c) => sameSizes(c, first));
  const together = twins.reduce((s, c) => s + c.odds, 0);
  const more = first?.evidence.some((e) => e.what !== 'bolt circle' && e.agrees) === true;
  return {
    name: face.name,
    candidates,
    none: Math.exp(none - total),
    sure: first !== undefined && more && (first.odds >= SURE || together >= SURE) ? 0 : null,
  };
};

const sameSizes = (a: Recognised, b: Recognised | undefined): boolean =>
  b !== undefined &&
  a.face.holes.circle === b.face.holes.circle &&
  a.face.holes.count === b.face.holes.count &&
  a.face.register?.nominal === b.face.register?.nominal;
