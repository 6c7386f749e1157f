import { type Point, distance } from '@fayplate/core';
import type { Face, Reading } from '@fayplate/job';
import type { LocatedFace, Pattern } from '@fayplate/survey';
import type { Candidate, TellingReading } from './types.js';
import type { Reporting } from './weigh/candidate.js';

/** Candidates of lower odds have no say in what to measure next. */
const HEARD = 0.005;
const MOST_HEARD = 10;
/** A reading that promises less than this much more is not worth naming. */
const WORTH = 0.02;

interface Odds {
  readonly candidates: readonly Candidate[];
  readonly asMeasured: number;
}

/** What one hypothesis expects a reading to say, and how well it knows. */
interface Expected {
  readonly index: number | null;
  readonly odds: number;
  readonly mean: number;
  readonly sigma: number;
}

const lengths: readonly Reading['kind'][] = ['centres', 'over', 'between', 'step', 'wall'];

/** The finest length reading that the face already has: the next one may be as good. */
const finest = (face: Face): Reading | null =>
  face.readings.filter((r) => lengths.includes(r.kind) && !r.aside).sort((a, b) => a.plusMinus - b.plusMinus)[0] ?? null;

const distanceIn = (pattern: Pattern, a: string, b: string): { readonly mean: number; readonly variance: number } => {
  const [i, j] = [pattern.ids.indexOf(a), pattern.ids.indexOf(b)];
  const origin: Point = { x: 0, y: 0 };
  const [p, q] = [pattern.points[i] ?? origin, pattern.points[j] ?? origin];
  const d = Math.max(distance(p, q), 1e-9);
  const u = [(p.x - q.x) / d, (p.y - q.y) / d];
  const slopes: readonly (readonly [number, number])[] = [0, 1].flatMap((k) => [[2 * i + k, u[k] ?? 0] as const, [2 * j + k, -(u[k] ?? 0)] as const]);
  let variance = 0;
  for (const [r, s] of slopes) for (const [c, t] of slopes) variance += s * t * (pattern.covariance[r]?.[c] ?? 0);
  return { mean: d, variance: Math.max(variance, 0) };
};

/** Reading between two features as a person would take it, and what it says where their centres are `d` apart, mm. */
const takenAs = (face: Face, located: LocatedFace, a: string, b: string): { readonly text: string; readonly says: (d: number) => number } => {
  const kind = (id: string): string => face.features.find((f) => f.id === id)?.kind ?? 'hole';
  const round = (id: string): boolean => kind(id) === 'bore' || kind(id) === 'spigot';
  const [ra, rb] = [located.features.get(a)?.radius ?? null, located.features.get(b)?.radius ?? null];
  const [fa, fb] = [located.features.get(a), located.features.get(b)];
  if (ra === null || rb === null || fa === undefined || fb === undefined) return { text: `centres ${a} ${b}`, says: (d) => d };
  if (!round(a) && !round(b)) return { text: `over ${a} ${b}`, says: (d) => d + ra + rb };
  const apart = distance(fa, fb);
  if (apart > ra + rb) return { text: `between ${a} ${b}`, says: (d) => d - ra - rb };
  const [small, large] = ra < rb ? [a, b] : [b, a];
  return apart < Math.abs(ra - rb) ? { text: `wall ${small} ${large}`, says: (d) => Math.abs(ra - rb) - d } : { text: `centres ${a} ${b}`, says: (d) => d };
};

/** Expected odds of whichever hypothesis leads once the reading is taken: ∫ max over h of odds_h · N(x; mean_h, sigma_h²) dx. */
const expectedLead = (all: readonly Expected[]): number => {
  const at = all.flatMap((h) => Array.from({ length: 61 }, (_, k) => h.mean + h.sigma * (k / 5 - 6))).sort((a, b) => a - b);
  const height = (x: number): number => Math.max(...all.map((h) => (h.odds / (h.sigma * Math.sqrt(2 * Math.PI))) * Math.exp(-(((x - h.mean) / h.sigma) ** 2) / 2)));
  let area = 0;
  let before = { x: at[0] ?? 0, h: height(at[0] ?? 0) };
  for (const x of at.slice(1)) {
    const h = height(x);
    area += ((h + before.h) / 2) * (x - before.x);
    before = { x, h };
  }
  return area;
};

interface Hypothesis {
  readonly index: number | null;
  readonly odds: number;
  readonly pattern: Pattern;
}

interface Told {
  readonly a: string;
  readonly b: string;
  readonly expected: readonly Expected[];
}

/** How far hypotheses are apart in a reading, by their odds: quick, to choose what to work out. */
const separation = (expected: readonly Expected[]): number =>
  expected.reduce((s, g, i) => s + expected.slice(i + 1).reduce((q, h) => q + g.odds * h.odds * Math.min(4, ((g.mean - h.mean) / Math.hypot(g.sigma, h.sigma)) ** 2), 0), 0);

const MOST_WORKED_OUT = 8;

/** The distance that tells most when it is read with this standard uncertainty. */
const mostTelling = (features: readonly string[], hypotheses: readonly Hypothesis[], sigma: number): (Told & { readonly lead: number }) | null => {
  const all = features.flatMap((a, i) =>
    features.slice(i + 1).map((b): Told => {
      const expected = hypotheses.map(({ index, odds, pattern }): Expected => {
        const { mean, variance } = distanceIn(pattern, a, b);
        return { index, odds, mean, sigma: Math.sqrt(variance + sigma * sigma) };
      });
      return { a, b, expected };
    }),
  );
  const [best] = all
    .map((told) => ({ told, apart: separation(told.expected) }))
    .sort((p, q) => q.apart - p.apart)
    .slice(0, MOST_WORKED_OUT)
    .map(({ told }) => ({ ...told, lead: expectedLead(told.expected) }))
    .sort((p, q) => q.lead - p.lead);
  return best ?? null;
};

/** Where a reading as fine as the finest is not enough, finer ones by these factors are tried, down to what a good caliper reads, mm. */
const finer = [2, 4, 8, 16];
const FINEST = 0.02;
const SETTLED = 0.95;
/** A finer one that does not settle it is still named if it promises this much. */
const PROMISES = 0.1;

/**
 * The one reading between two features after which the leading hypothesis is expected to have the highest odds, taken with the finest ± that the face
 * already has; where that promises nothing, the coarsest finer one that would settle the matter, or the finest that helps. Null where none would.
 */
export const tellingReading = (face: Face, located: LocatedFace, reporting: Reporting, { candidates, asMeasured }: Odds): TellingReading | null => {
  const model = finest(face);
  const { measured } = reporting;
  const heard = candidates
    .map((c, index): Hypothesis => ({ index, odds: c.odds, pattern: c.pattern }))
    .filter((c) => c.odds >= HEARD)
    .sort((a, b) => b.odds - a.odds)
    .slice(0, MOST_HEARD);
  const plain: Pattern = { ids: measured.ids, points: measured.points, radii: [], covariance: located.covarianceOf(measured.ids) };
  const hypotheses = [...heard, ...(asMeasured >= HEARD ? [{ index: null, odds: asMeasured, pattern: plain }] : [])];
  if (hypotheses.length < 2) return null;
  // With no length reading to go by (a milling table's coordinates alone), as good as the centres themselves.
  const sigma = model === null ? Math.max(...reporting.within) / 2.45 : model.plusMinus / 2;
  const now = Math.max(...hypotheses.map((h) => h.odds));
  const features = [...measured.fasteners, ...measured.centres.slice(0, 1)].map((i) => measured.ids[i] ?? '');
  const tries = [1, ...finer.filter((times) => (2 * sigma) / times >= FINEST)];
  for (const times of tries) {
    const best = mostTelling(features, hypotheses, sigma / times);
    const enough = times === 1 ? now + WORTH : times === tries.at(-1) ? Math.min(SETTLED, now + PROMISES) : SETTLED;
    if (best === null || best.lead < enough) continue;
    const { text, says } = takenAs(face, located, best.a, best.b);
    return {
      reading: text,
      instrument: times === 1 ? (model?.instrument ?? null) : null,
      plusMinus: (2 * sigma) / times,
      now,
      expected: best.lead,
      predicts: best.expected.map((e) => [e.index, says(e.mean)]),
    };
  }
  return null;
};
