import { randomFrom } from '@fayplate/core';
import { Matrix, inverse } from 'ml-matrix';
import { describe, expect, test } from 'vitest';
import { type SymmetricMatrix, factorise, solveInPlace } from '../../src/sparse/factor.js';
import { selectedInverse } from '../../src/sparse/inverse.js';
import { type FactorPattern, minimumDegree, symbolicFactor, placeOf } from '../../src/sparse/pattern.js';

interface Made {
  readonly pattern: FactorPattern;
  readonly matrix: SymmetricMatrix;
  readonly full: Matrix;
}

/** JᵀJ of random rows over random small sets of unknowns, sparse and full. */
const make = (size: number, rows: number, seed: number, paired = false): Made => {
  const random = randomFrom(seed);
  const one = (): readonly number[] => {
    const u = random.below(size);
    return paired ? [u & ~1, u | 1].filter((v) => v < size) : [u];
  };
  const cliques = Array.from({ length: rows }, () => [...new Set([one(), one(), one()].flat())]);
  const nodes = minimumDegree(
    Math.ceil(size / 2),
    cliques.map((c) => [...new Set(c.map((u) => u >> 1))]),
  );
  const order = paired
    ? Int32Array.from([...nodes].flatMap((n) => [2 * n, 2 * n + 1]).filter((u) => u < size))
    : minimumDegree(size, cliques);
  const points = new Set(paired ? [...Array(size >> 1).keys()].map((n) => 2 * n) : []);
  const pattern = symbolicFactor(size, cliques, order, points);
  const full = Matrix.zeros(size, size);
  const matrix = { pattern, diagonal: new Float64Array(size), lower: new Float64Array(pattern.rows.length) };
  for (const clique of cliques) {
    const slopes = clique.map(() => random.normal());
    for (const [a, u] of clique.entries()) {
      for (const [b, v] of clique.entries()) {
        const product = (slopes[a] ?? 0) * (slopes[b] ?? 0);
        full.set(u, v, full.get(u, v) + product);
        if (b > a) continue;
        const place = placeOf(pattern, u, v);
        if (place < 0) matrix.diagonal[~place] = (matrix.diagonal[~place] ?? 0) + product;
        else matrix.lower[place] = (matrix.lower[place] ?? 0) + product;
      }
    }
  }
  return { pattern, matrix, full };
};

const ordered = (pattern: FactorPattern, b: readonly number[]): Float64Array =>
  Float64Array.from(pattern.order, (u) => b[u] ?? 0);

describe('sparse L D Lᵀ against ml-matrix', () => {
  test.each([
    [5, 30, false],
    [40, 130, false],
    [120, 420, false],
    [6, 30, true],
    [60, 200, true],
  ])('%i unknowns, %i rows, points as pairs %j: solutions and the selected inverse', (size, rows, paired) => {
    const { pattern, matrix, full } = make(size, rows, 7 * size, paired);
    expect(pattern.pairs.includes(1)).toBe(paired);
    const factor = factorise(matrix, 1e-12);
    expect(factor.dropped).toEqual([]);
    const random = randomFrom(3);
    const b = Array.from({ length: size }, () => random.normal());
    const x = solveInPlace(factor, ordered(pattern, b));
    const dense = inverse(full);
    const want = dense.mmul(Matrix.columnVector(b)).to1DArray();
    const scale = Math.max(...want.map(Math.abs));
    for (const [k, u] of pattern.order.entries())
      expect(Math.abs((x[k] ?? 0) - (want[u] ?? 0)) / scale).toBeLessThan(1e-9);
    const selected = selectedInverse(factor);
    for (let i = 0; i < size; i++) {
      for (let j = 0; j <= i; j++) {
        const place = placeOf(pattern, i, j);
        if (Number.isNaN(place)) continue;
        const got = place < 0 ? selected.diagonal[~place] : selected.lower[place];
        expect(
          Math.abs((got ?? Number.NaN) - dense.get(i, j)) / Math.sqrt(dense.get(i, i) * dense.get(j, j)),
        ).toBeLessThan(1e-9);
      }
    }
  });

  test('a dependent unknown is dropped, and the rest is the inverse of the rest', () => {
    const { pattern, matrix } = make(12, 5, 99);
    const factor = factorise(matrix, 1e-10);
    expect(12 - factor.dropped.length).toBe(5);
    const selected = selectedInverse(factor);
    for (const p of factor.dropped) expect(selected.diagonal[p]).toBe(0);
    expect(pattern.size).toBe(12);
  });

  test('a negative pivot is reported', () => {
    const pattern = symbolicFactor(2, [[0, 1]], Int32Array.from([0, 1]));
    expect(
      factorise({ pattern, diagonal: Float64Array.from([1, 1]), lower: Float64Array.from([2]) }, 1e-12).negative,
    ).toEqual([1]);
  });
});

describe('elimination order', () => {
  test('takes the leaves of a star before its hub, and what must come last, last', () => {
    const star = [1, 2, 3, 4].map((leaf) => [0, leaf]);
    expect(minimumDegree(5, star).at(-1)).not.toBe(1);
    expect([...minimumDegree(5, star)].slice(0, 3).includes(0)).toBe(false);
    expect([...minimumDegree(5, star, [2])].at(-1)).toBe(2);
  });
});
