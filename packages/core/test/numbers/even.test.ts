import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import * as even from '../../src/numbers/even.js';

const bits = new BigInt64Array(1);
const float = new Float64Array(bits.buffer);
/** How many doubles lie between two of the same sign. */
const apart = (a: number, b: number): number => {
  if (Object.is(a, b) || a === b) return 0;
  float[0] = a;
  const first = bits[0] ?? 0n;
  float[0] = b;
  return Math.abs(Number(first - (bits[0] ?? 0n)));
};

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });

// Against the engine's own functions, which are within one unit of the last place of the true value (ECMA-262 leaves
// the digit open).
describe('as the engine has them, to the last digits', () => {
  test.each([
    ['sin', even.evenSin, Math.sin, between(-1000, 1000), 1],
    ['cos', even.evenCos, Math.cos, between(-1000, 1000), 1],
    ['tan', even.evenTan, Math.tan, between(-100, 100), 2],
    ['asin', even.evenAsin, Math.asin, between(-1, 1), 2],
    ['acos', even.evenAcos, Math.acos, between(-1, 1), 2],
    ['atan', even.evenAtan, Math.atan, between(-1e6, 1e6), 2],
    ['log', even.evenLog, Math.log, between(1e-300, 1e300), 1],
    ['log10', even.evenLog10, Math.log10, between(1e-6, 1e6), 4],
    ['log2', even.evenLog2, Math.log2, between(1e-6, 1e6), 4],
    ['log1p', even.evenLog1p, Math.log1p, between(-0.9, 10), 6],
    ['exp', even.evenExp, Math.exp, between(-700, 700), 1],
    ['cbrt', even.evenCbrt, Math.cbrt, between(-1e9, 1e9), 2],
  ] as const)('%s', (_, ours, engine, numbers, units) => {
    fc.assert(
      fc.property(numbers, (x) => {
        expect(apart(ours(x), engine(x))).toBeLessThanOrEqual(units);
      }),
      { seed: 190_3, numRuns: 2000 },
    );
  });

  test('atan2, in every quarter and on every axis', () => {
    fc.assert(
      fc.property(between(-1e6, 1e6), between(-1e6, 1e6), (y, x) => {
        expect(apart(even.evenAtan2(y, x), Math.atan2(y, x))).toBeLessThanOrEqual(2);
      }),
      { seed: 190_4, numRuns: 2000 },
    );
    for (const [y, x] of [
      [0, -1],
      [-0, -1],
      [1, 0],
      [-1, 0],
      [0, 1],
      [Infinity, -Infinity],
    ] as const)
      expect(even.evenAtan2(y, x)).toBe(Math.atan2(y, x));
  });

  test('powers: whole ones multiplied out, roots, and between', () => {
    expect([even.evenPow(10, 3), even.evenPow(2, -2), even.evenPow(0, 0), even.evenPow(-3, 3)]).toEqual([
      1000, 0.25, 1, -27,
    ]);
    fc.assert(
      fc.property(between(0.01, 100), between(-20, 20), (x, y) => {
        expect(Math.abs(even.evenPow(x, y) / Math.pow(x, y) - 1)).toBeLessThan(1e-13);
      }),
      { seed: 190_5, numRuns: 2000 },
    );
  });

  test('the ends: what is no number, and what is too large', () => {
    expect([
      even.evenSin(NaN),
      even.evenCos(Infinity),
      even.evenAsin(1.1),
      even.evenAcos(-2),
      even.evenLog(-1),
    ]).toEqual(Array.from({ length: 5 }, () => NaN));
    expect([
      even.evenAsin(1),
      even.evenAcos(-1),
      even.evenAtan(Infinity),
      even.evenExp(-Infinity),
      even.evenLog(0),
    ]).toEqual([Math.PI / 2, Math.PI, Math.PI / 2, 0, -Infinity]);
    expect(apart(1, 1 + 2 * Number.EPSILON)).toBeGreaterThan(1);
  });
});
