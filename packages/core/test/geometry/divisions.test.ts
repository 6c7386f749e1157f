import { describe, expect, test } from 'vitest';
import { distance, polar } from '../../src/index.js';

// Chord over diameter of a circle divided equally, as a workshop spacing table prints it to four places.
describe('equal divisions', () => {
  test.each([
    [3, 0.866],
    [4, 7071 / 10_000],
    [5, 0.5878],
    [6, 0.5],
    [7, 0.4339],
    [8, 0.3827],
    [9, 0.342],
    [10, 0.309],
    [11, 0.2817],
    [12, 0.2588],
    [13, 0.2393],
    [14, 0.2225],
  ])('%d holes', (n, chord) => {
    for (let i = 0; i < n; i += 1) {
      const at = (k: number) => polar(0.5, (2 * Math.PI * k) / n);
      expect(Math.abs(distance(at(i), at(i + 1)) - chord)).toBeLessThan(0.000051);
    }
  });
});
