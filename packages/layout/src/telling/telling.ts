import { type Point, distance } from '@fayplate/core';
import type { Face } from '@fayplate/job';
import type { LocatedFace, Pattern } from '@fayplate/survey';
import type { Candidate, TellingReading } from '../types.js';
import type { Reporting } from '../weigh/candidate.js';
import { type Taken, readingsOf } from './readings.js';

/** A drawing that may be meant, by its place among the candidates; null: as measured. */
interface Hypothesis {
  readonly index: number | null;
  readonly odds: number;
  readonly pattern: Pattern;
}

/** What one hypothesis expects a reading to say, and how well it knows. */
export interface Expected {
  readonly index: number | null;
  readonly odds: number;
  readonly mean: number;
  readonly sigma: number;
}

/** Distance between two centres of a pattern, and its variance, mm and mm². */
const distanceIn = (pattern: Pattern, a: string, b: string): { readonly mean: number; readonly variance: number } => {
  const [i, j] = [pattern.ids.indexOf(a), pattern.ids.indexOf(b)];
  const origin: Point = { x: 0, y: 0 };
  const [p, q] = [pattern.points[i] ?? origin, pattern.points[j] ?? origin];
  const d = Math.max(distance(p, q), 1e-9);
  const u = [(p.x - q.x) / d, (p.y - q.y) / d];
  const slopes: readonly (readonly [number, number])[] = [0, 1].flatMap((k) => [
    [2 * i + k, u[k] ?? 0] as const,
    [2 * j + k, -(u[k] ?? 0)] as const,
  ]);
  let variance = 0;
  for (const [r, s] of slopes) for (const [c, t] of slopes) variance += s * t * (pattern.covariance[r]?.[c] ?? 0);
  return { mean: d, variance: Math.max(variance, 0) };
};

/** What a hypothesis expects of a reading between two features, taken with this standard uncertainty. */
const expect = ({ index, odds, pattern }: Hypothesis, a: string, b: string, sigma: number): Expected => {
  const { mean, variance } = distanceIn(pattern, a, b);
  return { index, odds, mean, sigma: Math.sqrt(variance + sigma * sigma) };
};

/**
 * Expected odds of whichever hypothesis leads once the reading is taken: ∫ max over h of odds_h · N(x; mean_h,
 * sigma_h²) dx.
 */
export const expectedLead = (all: readonly Expected[]): number => {
  const at = all
    .flatMap((h) => Array.from({ length: 61 }, (_, k) => h.mean + h.sigma * (k / 5 - 6)))
    .sort((a, b) => a - b);
  const height = (x: number): number =>
    Math.max(
      ...all.map((h) => (h.odds / (h.sigma * Math.sqrt(2 * Math.PI))) * Math.exp(-(((x - h.mean) / h.sigma) ** 2) / 2)),
    );
  let area = 0;
  let before = { x: at[0] ?? 0, h: height(at[0] ?? 0) };
  for (const x of at.slice(1)) {
    const h = height(x);
    area += ((h + before.h) / 2) * (x - before.x);
    before = { x, h };
  }
  return area;
};

/** How far hypotheses are apart in a reading, by their odds: quick, to choose what to work out. */
export const separation = (expected: readonly Expected[]): number =>
  expected.reduce(
    (s, g, i) =>
      s +
      expected
        .slice(i + 1)
        .reduce(
          (q, h) => q + g.odds * h.odds * Math.min(4, ((g.mean - h.mean) / Math.hypot(g.sigma, h.sigma)) ** 2),
          0,
        ),
    0,
  );

/** Candidates of lower odds have no say in what to measure next. */
const HEARD = 0.005;
const MOST_HEARD = 10;
/** A reading that promises less than this much more is not worth naming. */
const WORTH = 0.02;
/** Readings worked out in full, those that seem to tell most. */
const MOST_WORKED_OUT = 8;

interface Odds {
  readonly candidates: readonly Candidate[];
  readonly asMeasured: number;
}

interface Told {
  readonly taken: Taken;
  readonly expected: readonly Expected[];
}

/** The reading that tells most when all are taken so many times finer than they are. */
const mostTelling = (
  readings: readonly Taken[],
  hypotheses: readonly Hypothesis[],
  times: number,
): (Told & { readonly lead: number }) | null => {
  const all = readings.map((taken): Told => ({
    taken,
    expected: hypotheses.map((h) => expect(h, taken.a, taken.b, taken.sigma / times)),
  }));
  const [best] = all
    .map((told) => ({ told, apart: separation(told.expected) }))
    .sort((p, q) => q.apart - p.apart)
    .slice(0, MOST_WORKED_OUT)
    .map(({ told }) => ({ ...told, lead: expectedLead(told.expected) }))
    .sort((p, q) => q.lead - p.lead);
  return best ?? null;
};

/**
 * Where a reading as fine as the finest is not enough, finer ones by these factors are tried, down to what a good
 * caliper reads, mm.
 */
const finer = [2, 4, 8, 16];
const FINEST = 0.02;
const SETTLED = 0.95;
/** A finer one that does not settle it is still named if it promises this much. */
const PROMISES = 0.1;

/**
 * The one reading between two features after which the leading hypothesis is expected to have the highest odds, of
 * those that survey would propose, taken with the tools that the face was read with; where that promises nothing, the
 * coarsest finer one that would settle the matter, or the finest that helps. Null where none would.
 */
export const tellingReading = (
  face: Face,
  located: LocatedFace,
  reporting: Reporting,
  { candidates, asMeasured }: Odds,
): TellingReading | null => {
  const { measured } = reporting;
  const heard = candidates
    .map((c, index): Hypothesis => ({ index, odds: c.odds, pattern: c.pattern }))
    .filter((c) => c.odds >= HEARD)
    .sort((a, b) => b.odds - a.odds)
    .slice(0, MOST_HEARD);
  const plain: Pattern = {
    ids: measured.ids,
    points: measured.points,
    radii: [],
    covariance: located.covarianceOf(measured.ids),
  };
  const hypotheses = [...heard, ...(asMeasured >= HEARD ? [{ index: null, odds: asMeasured, pattern: plain }] : [])];
  if (hypotheses.length < 2) return null;
  const now = Math.max(...hypotheses.map((h) => h.odds));
  const features = [...measured.fasteners, ...measured.centres.slice(0, 1)].map((i) => measured.ids[i] ?? '');
  const readings = readingsOf(face, located, features, Math.max(...reporting.within) / 2.45);
  const coarsest = Math.max(...readings.map((r) => r.sigma));
  const tries = [1, ...finer.filter((times) => (2 * coarsest) / times >= FINEST)];
  for (const times of tries) {
    const best = mostTelling(readings, hypotheses, times);
    const enough = times === 1 ? now + WORTH : times === tries.at(-1) ? Math.min(SETTLED, now + PROMISES) : SETTLED;
    if (best === null || best.lead < enough) continue;
    const { text, instrument, sigma, says } = best.taken;
    return {
      reading: text,
      instrument: times === 1 ? instrument : null,
      plusMinus: (2 * sigma) / times,
      now,
      expected: best.lead,
      predicts: best.expected.map((e) => [e.index, says(e.mean)]),
    };
  }
  return null;
};
