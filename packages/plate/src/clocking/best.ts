import { DEGREE, wrapAngle } from '@fayplate/core';
import type { AngleSpan } from '../types.js';
import type { AngleTest } from './angle-test.js';

/** Degrees that people set, coarsest first; radians. */
const roundDegrees = [1, 0.5, 0.1, 0.01].map((d) => d * DEGREE);

/**
 * Least turn from `clocking` into a span, in the roundest degrees that stay inside; null where there is no span. All
 * radians clockwise.
 */
export const nearestTurn = (clocking: number, spans: readonly AngleSpan[], range: AngleSpan): number | null => {
  const whole = range.to - range.from > 2 * Math.PI - 1e-9;
  const options = spans.flatMap(({ from, to }) => {
    const width = to - from;
    const up = whole ? (((from - clocking) % (2 * Math.PI)) + 2 * Math.PI) % (2 * Math.PI) : from - clocking;
    const down = whole ? (((clocking - to) % (2 * Math.PI)) + 2 * Math.PI) % (2 * Math.PI) : clocking - to;
    const rounded = (least: number): number => {
      const step = roundDegrees.find((s) => Math.ceil(least / s - 1e-9) * s <= least + width);
      return step === undefined ? least + width / 2 : Math.ceil(least / step - 1e-9) * step;
    };
    return [...(up >= 0 ? [rounded(up)] : []), ...(down >= 0 ? [-rounded(down)] : [])];
  });
  const [best] = options.toSorted((a, b) => Math.abs(a) - Math.abs(b));
  return best === undefined ? null : whole ? wrapAngle(best) : best;
};

/** Promised: within this of the widest margin, mm; polished beyond it. */
const CLOSE = 1e-4;
/**
 * Stretches looked at before the best so far is taken: usually some hundreds do, but a margin that stays level over a
 * range never settles.
 */
const MOST = 6_000;

interface Best {
  readonly angle: number;
  readonly margin: number;
}

/** A stretch of angles, what its least margin could reach at most, and the tests that could be the least in it. */
interface Stretch extends AngleSpan {
  readonly most: number;
  readonly active: readonly AngleTest[];
}

const leastOf = (tests: readonly AngleTest[], angle: number): number =>
  tests.reduce((least, t) => Math.min(least, t.margin(angle)), Infinity);

/**
 * A stretch's middle: the margin there, what the whole stretch could reach, and which tests could still be the least in
 * it.
 */
const look = (
  stretch: Stretch,
): {
  readonly angle: number;
  readonly half: number;
  readonly margin: number;
  readonly most: number;
  readonly active: readonly AngleTest[];
} => {
  const half = (stretch.to - stretch.from) / 2;
  const angle = stretch.from + half;
  const margins = stretch.active.map((t) => t.margin(angle));
  let margin = Infinity;
  let most = Infinity;
  for (const [i, t] of stretch.active.entries()) {
    const m = margins[i] ?? Infinity;
    margin = Math.min(margin, m);
    most = Math.min(most, m + t.rate * half);
  }
  return {
    angle,
    half,
    margin,
    most,
    active: stretch.active.filter((t, i) => (margins[i] ?? 0) - t.rate * half <= most),
  };
};

/**
 * The angle within the spans at which the least margin is greatest; null without tests or spans. Stretches are halved
 * while what their margin could still gain at its greatest rate beats the best so far, so the answer is certain to
 * `CLOSE`.
 */
export const widest = (tests: readonly AngleTest[], spans: readonly AngleSpan[]): Best | null => {
  const [first] = spans;
  if (tests.length === 0 || first === undefined) return null;
  let best: Best = { angle: first.from, margin: leastOf(tests, first.from) };
  const consider = (angle: number, margin: number): void => {
    if (margin > best.margin) best = { angle, margin };
  };
  for (const s of spans) for (const end of [s.from, s.to]) consider(end, leastOf(tests, end));
  let open: readonly Stretch[] = spans.map((s) => ({ ...s, most: Infinity, active: tests }));
  for (let looked = 0; open.length > 0 && looked < MOST;) {
    const next: Stretch[] = [];
    for (const stretch of open) {
      if (stretch.most <= best.margin + CLOSE) continue;
      const { angle, half, margin, most, active } = look(stretch);
      looked++;
      consider(angle, margin);
      if (most > best.margin + CLOSE && half > 1e-9)
        next.push({ from: stretch.from, to: angle, most, active }, { from: angle, to: stretch.to, most, active });
    }
    open = next.toSorted((a, b) => b.most - a.most);
  }
  return rounded(tests, polish(tests, best, spans), spans);
};

/** Degrees that people set: no turn at all, or the roundest, as long as they give up no more than `CLOSE`. */
const rounded = (tests: readonly AngleTest[], best: Best, spans: readonly AngleSpan[]): Best => {
  for (const angle of [0, ...roundDegrees.map((step) => Math.round(best.angle / step) * step)]) {
    if (!spans.some((s) => angle >= s.from && angle <= s.to)) continue;
    const margin = leastOf(tests, angle);
    if (margin >= best.margin - CLOSE) return { angle, margin };
  }
  return best;
};

/** Golden-section search on the crest that the best angle lies on. */
const polish = (tests: readonly AngleTest[], best: Best, spans: readonly AngleSpan[]): Best => {
  const golden = (Math.sqrt(5) - 1) / 2;
  const span = spans.find((s) => best.angle >= s.from && best.angle <= s.to);
  let from = Math.max(span?.from ?? best.angle, best.angle - 0.005);
  let to = Math.min(span?.to ?? best.angle, best.angle + 0.005);
  for (let i = 0; i < 50; i++) {
    const a = to - golden * (to - from);
    const b = from + golden * (to - from);
    if (leastOf(tests, a) >= leastOf(tests, b)) to = b;
    else from = a;
  }
  const angle = (from + to) / 2;
  const margin = leastOf(tests, angle);
  return margin > best.margin ? { angle, margin } : best;
};
