import { describe, expect, test } from 'vitest';
import { logLines } from '../../src/groups/prior.js';
import {
  freeSize,
  gridSteps,
  logChoose,
  logFactorial,
  logSum,
  sayAbout,
  sayRound,
  sizeFamilies,
} from '../../src/prior/length.js';
import { MOST_DIVISIONS, logArray, logOccupied } from '../../src/prior/places.js';
import { kinds, logAbout, logAsMeasured, logMoved, logPartition } from '../../src/prior/structure.js';

const sum = (v: readonly number[]): number => v.reduce((a, b) => a + b, 0);
const range = (from: number, to: number): readonly number[] =>
  Array.from({ length: to - from + 1 }, (_, i) => from + i);

/** All partitions of n features into up to four numbered groups and singles: group of each, −1 single. */
const assignments = (n: number, groups: number): readonly (readonly number[])[] =>
  n === 0 ? [[]] : assignments(n - 1, groups).flatMap((rest) => range(-1, groups - 1).map((g) => [...rest, g]));

describe('chances add up', () => {
  test('of kinds, sizes and what a circle is about', () => {
    expect(sum(Object.values(kinds))).toBeCloseTo(1, 12);
    expect(sum(sizeFamilies.map((f) => f.weight)) + freeSize).toBeCloseTo(1, 12);
    expect(Math.exp(logAbout('first', 1)) + Math.exp(logAbout('own', 1))).toBeCloseTo(1, 12);
    expect(
      Math.exp(logAbout('first', 3)) + 2 * Math.exp(logAbout('other', 3)) + Math.exp(logAbout('own', 3)),
    ).toBeCloseTo(1, 12);
  });

  test.each([3, 5, 8])('of divisions for %d holes: every n, every set of places, every order, over turns', (k) => {
    // A pattern of k named holes in n places, up to turning, can be chosen in (n − 1)! / (n − k)! ways; patterns that a
    // coarser n also says are counted there.
    const primitive = (n: number): number => {
      // Number of k-sets of n places, up to the n turns, whose common divisor with n is 1, times k! orders.
      const all = (m: number): number => Math.exp(logChoose(m, k) + logFactorial(k) - Math.log(m));
      const mobius = (m: number): number => {
        let left = m;
        let sign = 1;
        for (let p = 2; p <= left; p++) {
          if (left % p !== 0) continue;
          left /= p;
          if (left % p === 0) return 0;
          sign = -sign;
        }
        return sign;
      };
      // Places of a set measured from its first one, so that 'all multiples of d' means the same as n / d divisions.
      return sum(range(1, n).flatMap((d) => (n % d === 0 && n / d >= k ? [mobius(d) * all(n / d)] : [])));
    };
    const whole = sum(range(Math.max(2, k), MOST_DIVISIONS).map((n) => primitive(n) * Math.exp(logOccupied(n, k))));
    expect(whole).toBeCloseTo(1, 6);
  });

  test('of partitions of six features into groups and singles', () => {
    const six = range(0, 5);
    const seen = new Map<string, number>();
    for (const a of assignments(6, 4)) {
      const groups = range(0, 3)
        .map((g) => six.filter((f) => a[f] === g))
        .filter((g) => g.length > 0);
      if (groups.length === 0) continue;
      const key = groups
        .map((g) => g.join(''))
        .sort((x, y) => x.localeCompare(y))
        .join('|');
      seen.set(
        key,
        Math.exp(
          logPartition(
            groups,
            six,
            six.map(() => 'stud '),
          ),
        ),
      );
    }
    const total = sum([...seen.values()]) + Math.exp(logAsMeasured);
    expect(total).toBeGreaterThan(0.97);
    expect(total).toBeLessThan(1 + 1e-9);
  });

  test.each([3, 4, 10])(
    'of arrays for %d holes: every shape, every set of places, every order, each array once',
    (k) => {
      // A rectangular pattern reads the same from four sides, a row from two.
      const sides = range(2, 24);
      const drawings = (places: number, names: number): number =>
        k > places ? 0 : Math.exp(logChoose(places, k) + logFactorial(k) - Math.log(names));
      const rows = sum(sides.filter((m) => m >= k).map((m) => drawings(m, 2) * Math.exp(logArray(m, 1, false, k))));
      const patterns = sum(
        sides.flatMap((m) =>
          sides
            .filter((r) => m * r >= k)
            .flatMap((r) => [true, false].map((square) => drawings(m * r, 4) * Math.exp(logArray(m, r, square, k)))),
        ),
      );
      expect(rows + patterns).toBeCloseTo(1, 9);
    },
  );

  test('of three coordinates on lines that each may share, to what two of so many lines coincide by chance', () => {
    const lines = range(0, 40);
    const whole = sum(
      lines.flatMap((a) => lines.flatMap((b) => lines.map((c) => Math.exp(logLines([a, b, c], -Math.log(40)))))),
    );
    expect(whole).toBeGreaterThan(0.98);
    expect(whole).toBeLessThan(1);
  });

  test.each([
    [0.02, 5],
    [0.2, 3],
  ])(
    'of a hole moved anywhere on the disc that it may have moved on, %d mm known, %d mm at the most',
    (sigma, most) => {
      const h = most / 20000;
      let area = 0;
      for (let r = h / 2; r < most; r += h) area += 2 * Math.PI * r * Math.exp(logMoved(r, sigma, most)) * h;
      expect(area).toBeCloseTo(1, 3);
      expect(logMoved(most + h, sigma, most)).toBe(Number.NEGATIVE_INFINITY);
    },
  );

  test('of the steps of a grid: they add up to 1, and the finest are seldom', () => {
    expect(sum(gridSteps.map((g) => g.chance))).toBeCloseTo(1, 12);
    for (const g of gridSteps) if (g.step < 0.45) expect(g.chance).toBeLessThan(0.05);
  });
});

describe('makers prefer coarse, even numbers', () => {
  test('few divisions before many, even before odd', () => {
    for (const [likely, unlikely] of [
      [6, 7],
      [8, 9],
      [12, 11],
      [12, 13],
      [12, 24],
      [24, 23],
      [36, 35],
    ] as const) {
      expect(logOccupied(likely, 3)).toBeGreaterThan(logOccupied(unlikely, 3));
    }
  });

  test('all places taken before any set of fewer among more', () => {
    expect(logOccupied(7, 7)).toBeGreaterThan(logOccupied(12, 7));
    expect(logOccupied(12, 7)).toBeGreaterThan(logOccupied(24, 7));
    expect(logOccupied(12, 7)).toBeGreaterThan(logOccupied(36, 7));
  });
});

describe('sizes that are coarse in their unit', () => {
  const mass = (mm: number): number =>
    sum(
      sizeFamilies.filter((f) => Math.abs(mm / f.step - Math.round(mm / f.step)) < 1e-9).map((f) => f.weight * f.step),
    );
  const inches = (i: number): number => 25.4 * i;

  test.each([
    ['100 mm', 100, '3 15/16 in', inches(3.9375)],
    ['150 mm', 150, '5 29/32 in', inches(5.90625)],
    ['135 mm', 135, '136 mm', 136],
    ['7 1/4 in', inches(7.25), '184 mm', 184],
    ['6 in', inches(6), '6 1/8 in', inches(6.125)],
  ])('%s before %s of much the same size', (_likely, likely, _unlikely, unlikely) =>
    expect(mass(likely)).toBeGreaterThan(mass(unlikely)),
  );

  test('100 mm stands 62 to 38 against 3 15/16 in, which no caliper tells from it', () =>
    expect(mass(100) / (mass(100) + mass(inches(3.9375)))).toBeCloseTo(0.616, 3));

  test('the units keep their shares, four sevenths and two', () => {
    const of = (unit: string): number => sum(sizeFamilies.filter((f) => f.unit === unit).map((f) => f.weight));
    expect(of('in')).toBeCloseTo(4 / 7, 12);
    expect(of('mm')).toBeCloseTo(2 / 7, 12);
  });
});

describe('sizes as their maker would write them', () => {
  test.each([
    [190.5, 'in', '7 1/2 in'],
    [131.7625, 'in', '5 3/16 in'],
    [25.4, 'in', '1 in'],
    [190.5, 'mm', '190.5 mm'],
    [100, 'mm', '100 mm'],
    [0.396875, 'in', '1/64 in'],
  ] as const)('%d mm as %s', (mm, unit, says) => expect(sayRound(mm, unit)).toBe(says));

  test('no round figure', () => {
    expect(sayAbout(190.4567, { unit: 'mm', fraction: null })).toBe('190.46 mm');
    expect(sayAbout(190.4567, { unit: 'in', fraction: null })).toBe('7.498 in');
  });
});

test('logs of sums', () => {
  expect(logSum([Math.log(1), Math.log(2), Number.NEGATIVE_INFINITY])).toBeCloseTo(Math.log(3), 12);
  expect(logSum([])).toBe(Number.NEGATIVE_INFINITY);
  expect(logSum([-2000, -2000])).toBeCloseTo(-2000 + Math.LN2, 9);
});
