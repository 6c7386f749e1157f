import { type Point, distance } from '@fayplate/core';
import type { Pattern } from '@fayplate/survey';

/** A drawing that may be meant, by its place among the candidates; null: as measured. */
export interface Hypothesis {
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
export const expect = ({ index, odds, pattern }: Hypothesis, a: string, b: string, sigma: number): Expected => {
  const { mean, variance } = distanceIn(pattern, a, b);
  return { index, odds, mean, sigma: Math.sqrt(variance + sigma * sigma) };
};

/** Expected odds of whichever hypothesis leads once the reading is taken: ∫ max over h of odds_h · N(x; mean_h, sigma_h²) dx. */
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
