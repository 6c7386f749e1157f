import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { covarianceOfPoints, largerEigenvalue, sayAll, sayChance } from '../../src/index.js';
import { seeded } from '../support.js';

describe('covariances', () => {
  test('the larger eigenvalue is the variance along the worst direction', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.01, max: 100, noNaN: true }),
        fc.double({ min: 0.01, max: 100, noNaN: true }),
        fc.double({ min: 0, max: Math.PI, noNaN: true }),
        (along, across, angle) => {
          const [c, s] = [Math.cos(angle), Math.sin(angle)];
          const xx = along * c * c + across * s * s;
          const yy = along * s * s + across * c * c;
          const xy = (along - across) * c * s;
          expect(largerEigenvalue(xx, xy, yy) / Math.max(along, across)).toBeCloseTo(1, 9);
        },
      ),
      seeded,
    );
    expect(largerEigenvalue(2, 0, 3)).not.toBe(2);
  });

  test('rows and columns of the points asked for, in their order; 0 for a point that is not there', () => {
    const all = [
      [1, 2, 3, 4],
      [2, 5, 6, 7],
      [3, 6, 8, 9],
      [4, 7, 9, 10],
    ];
    expect(covarianceOfPoints(all, [1])).toEqual([
      [8, 9],
      [9, 10],
    ]);
    expect(covarianceOfPoints(all, [1, 0])[0]).toEqual([8, 9, 3, 6]);
    expect(covarianceOfPoints(all, [0, -1])[1]).toEqual([2, 5, 0, 0]);
  });
});

describe('words', () => {
  test('names in a sentence', () =>
    expect([[], ['A'], ['A', 'B'], ['A', 'B', 'C']].map(sayAll)).toEqual(['', 'A', 'A and B', 'A, B and C']));

  test('a chance', () =>
    expect([0.85, 0.003, 0.0001, 0.999, 0.01].map(sayChance)).toEqual([
      '85 % of the time',
      '0.3 % of the time',
      'less than 0.1 % of the time',
      'more than 99 % of the time',
      '1 % of the time',
    ]));
});
