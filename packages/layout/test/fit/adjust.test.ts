import fc from 'fast-check';
import { type Point, randomFrom } from '@fayplate/core';
import { CholeskyDecomposition, Matrix } from 'ml-matrix';
import { describe, expect, test } from 'vitest';
import { adjust } from '../../src/fit/adjust.js';
import { draft, hold, linear, nothing, positionOf, quantityAt, slopesOf } from '../../src/fit/construction.js';
import { factorOf, firmFactor, inverseOf, solveWith } from '../../src/fit/dense.js';
import { drawGroup } from '../../src/groups/draw.js';
import type { Group } from '../../src/groups/group.js';
import { type Measured, informing } from '../../src/measured.js';

const seeded = { seed: 20_263, numRuns: 200 } as const;
const density = { logPlane: Math.log(1e-5), logSize: Math.log(1e-3) };

/** Points known alike: σ 1 mm, independent. */
const alike = (
  points: readonly Point[],
  fasteners: readonly number[] = points.map((_, i) => i),
  centres: readonly number[] = [],
): Measured => {
  const size = 2 * points.length;
  const covariance = new Float64Array(size * size);
  for (let i = 0; i < size; i++) covariance[i * (size + 1)] = 1;
  return {
    ids: points.map((_, i) => `P${i}`),
    points,
    covariance,
    fasteners,
    centres,
    sorts: fasteners.map(() => ''),
    extent: 100,
  };
};

const ring = (points: readonly Point[], own: Point, diameter: number): Group => ({
  kind: 'circle',
  members: points.map((_, i) => i),
  about: { own },
  headings: points.map((p) => Math.atan2(p.y - own.y, p.x - own.x)),
  diameter,
});

const fitRing = (points: readonly Point[], own: Point, diameter: number) => {
  const drafting = draft(points, density.logPlane);
  drawGroup(ring(points, own, diameter), drafting, density);
  return adjust(drafting.done(), points, informing(alike(points))(points.map((_, i) => i)));
};

describe('a circle with its holes anywhere on it is the geometric circle fit', () => {
  // Gander, Golub & Strebel 1994, BIT 34, 558–578: the six points; the result read in a library's example that prints
  // the paper's values, more digits and the sum of squares computed from the data.
  test('published: centre (4.7398, 2.9835), radius 4.7142, sum of squares 1.2276', () => {
    const points = [
      [1, 7],
      [2, 6],
      [5, 8],
      [7, 7],
      [9, 5],
      [3, 7],
    ].map(([x = 0, y = 0]) => ({ x, y }));
    const fit = fitRing(points, { x: 5, y: 4 }, 8);
    expect(fit?.parameters[0]).toBeCloseTo(4.739782, 4);
    expect(fit?.parameters[1]).toBeCloseTo(2.983533, 4);
    expect(fit?.parameters[2]).toBeCloseTo(2 * 4.714226, 4);
    expect(fit?.chi2).toBeCloseTo(1.227599, 5);
  });

  // A library's cookbook, read in a public notebook.
  test('published: centre (10.500087, 9.659949), radius 23.333528, sum of squares 7.711852', () => {
    const points = [
      [9, 34],
      [35, 10],
      [-13, 6],
      [10, -14],
      [23, 27],
      [0, -10],
    ].map(([x = 0, y = 0]) => ({ x, y }));
    const fit = fitRing(points, { x: 10, y: 10 }, 46);
    expect(fit?.parameters[0]).toBeCloseTo(10.500087, 4);
    expect(fit?.parameters[1]).toBeCloseTo(9.659949, 4);
    expect(fit?.parameters[2]).toBeCloseTo(2 * 23.333528, 4);
    expect(fit?.chi2).toBeCloseTo(7.711852, 5);
  });
});

describe('slopes', () => {
  test('against differences, for a place that uses everything', () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: -3, max: 3, noNaN: true }), { minLength: 5, maxLength: 5 }), (p) => {
        const place = {
          from: [linear(1, [0, 2]), linear(-1, [1, 1])],
          turn: linear(0.3, [2, 1], [3, -0.5]),
          u: linear(2, [4, 1.5]),
          v: linear(-1, [4, -0.7], [0, 1]),
        } as const;
        const slope = [new Map<number, number>(), new Map<number, number>()] as const;
        slopesOf(place, p, (row, k, s) => void slope[row].set(k, (slope[row].get(k) ?? 0) + s));
        for (let k = 0; k < 5; k++) {
          const h = 1e-5;
          const [high, low] = [p.map((v, i) => (i === k ? v + h : v)), p.map((v, i) => (i === k ? v - h : v))];
          const [a, b] = [positionOf(place, high), positionOf(place, low)];
          expect(slope[0].get(k) ?? 0).toBeCloseTo((a.x - b.x) / (2 * h), 6);
          expect(slope[1].get(k) ?? 0).toBeCloseTo((a.y - b.y) / (2 * h), 6);
        }
      }),
      seeded,
    );
  });
});

describe('dense systems, beside a general matrix library (ml-matrix)', () => {
  const random = randomFrom(4);
  const size = 7;
  const root = new Matrix(Array.from({ length: size }, () => Array.from({ length: size }, () => random.normal())));
  const a = root.mmul(root.transpose()).add(Matrix.eye(size).mul(0.1));
  const flat = Float64Array.from(a.to1DArray());
  const factor = factorOf(flat, size);
  const other = new CholeskyDecomposition(a.clone().add(a.transpose()).mul(0.5));

  test('factor, solution and inverse', () => {
    if (factor === null) throw new Error('not positive definite');
    expect(factor.logRoot).toBeCloseTo(
      other.lowerTriangularMatrix.diagonal().reduce((s, v) => s + Math.log(v), 0),
      10,
    );
    const b = Float64Array.from({ length: size }, () => random.normal());
    const x = other.solve(Matrix.columnVector([...b])).to1DArray();
    for (const [i, v] of solveWith(factor, b).entries()) expect(v).toBeCloseTo(x[i] ?? Number.NaN, 9);
    const inverse = other.solve(Matrix.eye(size)).to1DArray();
    for (const [i, v] of inverseOf(factor).entries()) expect(v).toBeCloseTo(inverse[i] ?? Number.NaN, 9);
  });

  test('a matrix that is not positive definite has no factor; a covariance rounded just below is mended', () => {
    const bad = Float64Array.from([1, 1, 1, 1 - 1e-13]);
    expect(factorOf(bad, 2)).toBeNull();
    expect(firmFactor(bad, 2).logRoot).toBeLessThan(-10);
    expect(() => firmFactor(new Float64Array(4), 2)).toThrow(/variance/);
  });
});

describe('evidence', () => {
  const points = [
    { x: 0, y: 0 },
    { x: 30, y: 0 },
    { x: 0, y: 41 },
    { x: -29, y: 2 },
  ];

  test('of points each anywhere is the product of their densities', () => {
    const drafting = draft(points, density.logPlane);
    for (const i of points.keys()) drafting.point(i);
    const fit = adjust(drafting.done(), points, informing(alike(points))([0, 1, 2, 3]));
    expect(fit?.chi2).toBeCloseTo(0, 12);
    expect(fit?.logEvidence).toBeCloseTo(4 * density.logPlane, 10);
  });

  test('of three equal divisions about a point, beside an integral summed over diameter and turn', () => {
    const seen = [
      { x: 0, y: 0 },
      { x: 0.7, y: 30.4 },
      { x: 25.2, y: -15.9 },
      { x: -26.6, y: -14.1 },
    ];
    const group: Group = {
      kind: 'divided',
      members: [1, 2, 3],
      about: { feature: 0 },
      divisions: 3,
      places: [0, 1, 2],
      heading: Math.PI / 2,
      held: false,
      diameter: 60,
    };
    const drafting = draft(seen, density.logPlane);
    drawGroup(group, drafting, density);
    const fit = adjust(drafting.done(), seen, informing(alike(seen, [1, 2, 3], [0]))([0, 1, 2, 3]));
    // For each diameter and turn the centre is integrated in closed form: n points of σ 1 about one unknown centre.
    let whole = 0;
    const [dd, dt] = [0.05, 0.001];
    for (let d = 52; d < 70; d += dd) {
      for (let t = -0.3; t < 0.3; t += dt) {
        const offsets = seen.map((p, i) =>
          i === 0
            ? p
            : {
                x: p.x - (d / 2) * Math.cos(Math.PI / 2 + t - ((i - 1) * 2 * Math.PI) / 3),
                y: p.y - (d / 2) * Math.sin(Math.PI / 2 + t - ((i - 1) * 2 * Math.PI) / 3),
              },
        );
        const mean = { x: offsets.reduce((s, p) => s + p.x, 0) / 4, y: offsets.reduce((s, p) => s + p.y, 0) / 4 };
        const spread = offsets.reduce((s, p) => s + (p.x - mean.x) ** 2 + (p.y - mean.y) ** 2, 0);
        whole += Math.exp(-spread / 2) * dd * dt;
      }
    }
    const log =
      Math.log(whole) -
      3 * Math.log(2 * Math.PI) -
      Math.log(4) +
      density.logPlane +
      density.logSize -
      Math.log(2 * Math.PI);
    expect(fit?.logEvidence).toBeCloseTo(log, 2);
  });
});

describe('holding a quantity', () => {
  test('takes one parameter away and keeps the value exactly; the fit is the constrained one', () => {
    const seen = [
      { x: 0, y: 0 },
      { x: 0.2, y: 30.4 },
      { x: 25.9, y: -15.3 },
      { x: -26.1, y: -14.8 },
    ];
    const group: Group = {
      kind: 'divided',
      members: [1, 2, 3],
      about: { feature: 0 },
      divisions: 3,
      places: [0, 1, 2],
      heading: Math.PI / 2,
      held: false,
      diameter: 60,
    };
    const drafting = draft(seen, density.logPlane);
    drawGroup(group, drafting, density);
    const open = drafting.done();
    const held = hold(open, 0, 61);
    expect(held.start).toHaveLength(open.start.length - 1);
    const information = informing(alike(seen, [1, 2, 3], [0]))([0, 1, 2, 3]);
    const [free, fixed] = [adjust(open, seen, information), adjust(held, seen, information)];
    if (free === null || fixed === null) throw new Error('no fit');
    expect(quantityAt(held, 0, fixed.parameters)).toBe(61);
    const d = open.start.length;
    const variance = free.covariance[2 * d + 2] ?? Number.NaN;
    expect(fixed.chi2 - free.chi2).toBeCloseTo((61 - (free.parameters[2] ?? 0)) ** 2 / variance, 6);
  });

  test('a quantity against another holds their difference', () => {
    const drafting = draft([], 0);
    const a = drafting.parameter(1, 0);
    const b = drafting.parameter(5, 0);
    drafting.put(0, { from: [linear(0, [a, 1]), linear(0, [b, 1])], turn: nothing, u: nothing, v: nothing });
    drafting.quantity({ what: 'direction', value: linear(0, [a, -1], [b, 1]), families: [], free: 1 });
    const held = hold(drafting.done(), 0, 3);
    expect(
      positionOf(held.places.get(0) ?? { from: [nothing, nothing], turn: nothing, u: nothing, v: nothing }, [7]),
    ).toEqual({ x: 7, y: 10 });
  });
});
