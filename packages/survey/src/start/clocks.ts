import { type Point, centroid, subtract } from '@fayplate/core';

/**
 * How far an arrangement is from the clocks, turned as agrees best with them: Σ 2·(1 − cos δ), which for small differences is
 * the sum of squared clock differences, radians². Features without a place or a clock are left out; 0 where the centre has no place.
 * `centre` null: the clocks run about the mean of the places.
 */
export const clockDifference = (
  clocks: readonly (number | null)[],
  places: readonly (Point | null)[],
  centre: number | null,
): number => {
  const middle = centre === null ? centroid(places.filter((p) => p !== null)) : (places[centre] ?? null);
  if (middle === null) return 0;
  let c = 0;
  let s = 0;
  let n = 0;
  for (const [f, clock] of clocks.entries()) {
    const p = places[f] ?? null;
    if (clock === null || p === null || f === centre) continue;
    const v = subtract(p, middle);
    if (v.x === 0 && v.y === 0) continue;
    const d = Math.atan2(v.y, v.x) - clock;
    c += Math.cos(d);
    s += Math.sin(d);
    n++;
  }
  return 2 * (n - Math.hypot(c, s));
};
