import type { AngleSpan } from '../types.js';
import type { AngleTest } from './test.js';

/** Promised: within this of the widest margin, mm; polished beyond it. */
const CLOSE = 1e-4;
const MOST = 30_000;
/** Where tests draw the plate anew at each angle, which is dear. */
const MOST_REDRAWN = 3_000;

/**
 * The angle at which the least margin is greatest. Stretches are halved while their middle plus what the margin could
 * still gain at its greatest rate beats the best so far; the widest promise first, so the answer is certain to `CLOSE`
 * or, when it takes too long, to what is left open.
 */
export const widest = (tests: readonly AngleTest[], range: AngleSpan): { readonly angle: number; readonly margin: number } | null => {
  if (tests.length === 0) return null;
  const least = (c: number): number => Math.min(...tests.map((t) => t.margin(c)));
  /** What a stretch could reach at most: each test's own middle and rate. */
  const promise = (middle: number, half: number): { margin: number; most: number } => {
    let margin = Infinity;
    let most = Infinity;
    for (const t of tests) {
      const m = t.margin(middle);
      margin = Math.min(margin, m);
      most = Math.min(most, m + t.rate * half);
    }
    return { margin, most };
  };
  let best = { angle: range.from, margin: least(range.from) };
  const consider = (angle: number, margin: number): void => {
    if (margin > best.margin) best = { angle, margin };
  };
  consider(range.to, least(range.to));
  const enough = tests.some((t) => t.turns === null) ? MOST_REDRAWN : MOST;
  let open = [{ ...range, most: Infinity }];
  for (let looked = 0; open.length > 0 && looked < enough; ) {
    const next: typeof open = [];
    for (const span of open) {
      if (span.most <= best.margin + CLOSE) continue;
      const half = (span.to - span.from) / 2;
      const middle = span.from + half;
      const { margin, most } = promise(middle, half);
      looked++;
      consider(middle, margin);
      if (most > best.margin + CLOSE && half > 1e-9) next.push({ from: span.from, to: middle, most }, { from: middle, to: span.to, most });
    }
    open = next.toSorted((a, b) => b.most - a.most);
  }
  return polish(least, best, range);
};

/** Golden-section search on the crest that the best angle lies on. */
const polish = (least: (c: number) => number, best: { readonly angle: number; readonly margin: number }, range: AngleSpan): { readonly angle: number; readonly margin: number } => {
  const golden = (Math.sqrt(5) - 1) / 2;
  let from = Math.max(range.from, best.angle - 0.005);
  let to = Math.min(range.to, best.angle + 0.005);
  for (let i = 0; i < 50; i++) {
    const a = to - golden * (to - from);
    const b = from + golden * (to - from);
    if (least(a) >= least(b)) to = b;
    else from = a;
  }
  const angle = (from + to) / 2;
  const margin = least(angle);
  return margin > best.margin ? { angle, margin } : best;
};
