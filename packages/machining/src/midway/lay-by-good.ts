import { type Motion, type Point, apply, distance, register } from '@fayplate/core';
import { movePattern } from '@fayplate/plate';
import type { Pattern } from '@fayplate/survey';
import { freed } from '../prove/lay.js';
import { onto } from '../prove/renumber.js';

/** Pairs of places by number, those farthest from each other first. */
export const farPairs = (points: readonly Point[], most: number): readonly (readonly [number, number])[] =>
  points
    .flatMap((p, i) => points.slice(i + 1).map((q, j) => ({ pair: [i, i + 1 + j] as const, apart: distance(p, q) })))
    .sort((a, b) => b.apart - a.apart)
    .slice(0, most)
    .map((p) => p.pair);

/** Most pairs that a laying is tried from. */
const PAIRS = 400;

/** A drilled pattern laid on the drawing by those of its holes that agree with it. */
interface LaidByGood {
  readonly laid: Pattern;
  /** Which holes it was laid by. */
  readonly good: readonly string[];
  /** Whether they say where the zero was: three or more agree, or all do. */
  readonly sure: boolean;
}

/**
 * The measured pattern laid on the drawing by as many of its holes as agree with the drawing to within `near` mm, so
 * that one hole out of its place does not pull the others after it: this is where the machine's zero was. All of them,
 * by least squares, where fewer than three agree.
 */
export const layByGood = (pattern: Pattern, designed: ReadonlyMap<string, Point>, near: number): LaidByGood => {
  const wanted = pattern.ids.map((id) => designed.get(id) ?? { x: 0, y: 0 });
  const { points } = pattern;
  const agree = (m: Motion): readonly number[] =>
    points.flatMap((p, i) => (distance(apply(m, p), wanted[i] ?? p) <= near ? [i] : []));
  const cost = (m: Motion): number =>
    points.reduce((s, p, i) => s + Math.min(near, distance(apply(m, p), wanted[i] ?? p)) ** 2, 0);
  const pick = (all: readonly Point[], of: readonly number[]): readonly Point[] => of.flatMap((i) => all[i] ?? []);
  const starts = farPairs(points, PAIRS).map(([i, j]) => {
    const [a, b, c, d] = [points[i], points[j], wanted[i], wanted[j]] as [Point, Point, Point, Point];
    return onto(a, b, c, d);
  });
  const best = starts.reduce<{ readonly motion: Motion; readonly cost: number } | null>((b, motion) => {
    const c = cost(motion);
    return b === null || c < b.cost - 1e-12 ? { motion, cost: c } : b;
  }, null);
  const all = points.map((_, i) => i);
  const near1 = best === null ? all : agree(best.motion);
  const good = near1.length >= 3 ? near1 : all;
  const laid = points.length === 0 ? pattern : movePattern(register(pick(points, good), pick(wanted, good)), pattern);
  const agreeing = points.length < 2 || near1.length >= Math.min(3, points.length);
  return {
    sure: agreeing,
    laid: points.length === 0 ? laid : { ...laid, covariance: freed(laid.covariance, wanted) },
    good: good.flatMap((i) => pattern.ids[i] ?? []),
  };
};

/** How near a hole must come to the drawing to say where the machine's zero was, mm; `making`: the ± of drilling. */
export const nearOf = (making: number): number => Math.min(0.75, Math.max(0.2, 1.5 * making));
