import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Motion, apply, compose, distance, flipX, identity, invert, linearPart } from '../../src/index.js';
import { aPoint, aTurn, seeded } from '../support.js';

const aMotion: fc.Arbitrary<Motion> = fc.record({ turn: aTurn, shift: aPoint, mirrored: fc.boolean() });

describe('rigid motions', () => {
  test('mirror twice is identity', () => {
    fc.assert(
      fc.property(aPoint, (p) => {
        expect(distance(apply(flipX, apply(flipX, p)), p)).toBe(0);
        expect(compose(flipX, flipX)).toEqual({ ...identity, turn: compose(flipX, flipX).turn });
      }),
      seeded,
    );
  });

  test('compose does the first and then the second; invert undoes', () => {
    fc.assert(
      fc.property(aMotion, aMotion, aPoint, (a, b, p) => {
        expect(distance(apply(compose(b, a), p), apply(b, apply(a, p)))).toBeLessThan(1e-9);
        expect(distance(apply(invert(a), apply(a, p)), p)).toBeLessThan(1e-9);
      }),
      seeded,
    );
  });

  test('distances are kept; the hand only where not mirrored', () => {
    fc.assert(
      fc.property(aMotion, aPoint, aPoint, (m, p, q) => {
        expect(distance(apply(m, p), apply(m, q))).toBeCloseTo(distance(p, q), 8);
        const [[a, b], [c, d]] = linearPart(m);
        expect(a * d - b * c).toBeCloseTo(m.mirrored ? -1 : 1, 12);
      }),
      seeded,
    );
  });
});
