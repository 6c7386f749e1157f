import { DEGREE, wrapAngle } from '@fayplate/core';
import type { AngleSpan } from '../types.js';

/** Degrees that people set, coarsest first; radians. */
export const roundDegrees = [1, 0.5, 0.1, 0.01].map((d) => d * DEGREE);

/** Least turn from `clocking` into a span, in the roundest degrees that stay inside; null where there is no span. All radians clockwise. */
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
