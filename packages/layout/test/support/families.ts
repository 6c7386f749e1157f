import type { Point, Random } from '@fayplate/core';
import type { Candidate } from '../../src/index.js';
import type { Shop } from './network.js';
import { INCH, clockwise, everyDistance, named, onDivisions, shopOf } from './scenes.js';

type Unit = 'in' | 'mm';
const counted = (n: number): readonly number[] => Array.from({ length: n }, (_, k) => k);
const fine = { in: [INCH / 8, INCH / 16, INCH / 32, INCH / 64], mm: [1, 0.5] } as const;
const pick = <T>(random: Random, some: readonly T[]): T => some[random.below(some.length)] as T;

/** A size of `from`–`to` mm as one drawing has them: to a step of its unit, or, one in seven, to nothing. */
const size = (random: Random, unit: Unit, from: number, to: number): number => {
  const any = from + (to - from) * random.uniform();
  if (random.below(7) === 0) return any;
  const step = pick(random, fine[unit]);
  return step * Math.round(any / step);
};
const unitOf = (random: Random): Unit => (random.below(3) === 0 ? 'mm' : 'in');
const ring = (random: Random, unit: Unit, from: number, to: number, n: number, turn = 0): readonly Point[] =>
  onDivisions(size(random, unit, from, to), n, counted(n), undefined, turn);
/** A coordinate of `from`–`to` mm on a step of its unit. */
const coordinate = (random: Random, unit: Unit, from: number, to: number): number => {
  const step = pick(random, unit === 'in' ? [INCH / 8, INCH / 16, INCH / 32] : [1, 0.5]);
  return step * Math.round((from + (to - from) * random.uniform()) / step);
};
const corners = (a: number, b: number, x = 0, y = 0): readonly Point[] =>
  [
    [-1, 1],
    [1, 1],
    [1, -1],
    [-1, -1],
  ].map(([i = 0, j = 0]) => ({ x: x + (i * a) / 2, y: y + (j * b) / 2 }));

export interface Family {
  readonly name: string;
  readonly draw: (random: Random, unit: Unit) => readonly Point[];
  readonly dowels: number;
}

/** Layouts of several parts, and patterns that are no circle, each drawn in one unit. */
export const families: readonly Family[] = [
  {
    name: 'a circle; two dowels on another, in line, midway or turned',
    dowels: 2,
    draw: (r, u) => [
      ...ring(r, u, 140, 220, pick(r, [4, 6, 8])),
      ...ring(r, u, 70, 110, 2, pick(r, [0, 22.5, 30, 360 * r.uniform()])),
    ],
  },
  {
    name: 'a circle; two dowels at coordinates',
    dowels: 2,
    draw: (r, u) => [
      ...ring(r, u, 140, 220, pick(r, [4, 6, 8])),
      ...[1, -1].map((k) => ({ x: k * coordinate(r, u, 15, 45), y: k * coordinate(r, u, 15, 45) })),
    ],
  },
  {
    name: 'a circle; two dowels either side of its centre line',
    dowels: 2,
    draw: (r, u) => {
      const [apart, y] = [size(r, u, 30, 90), size(r, u, 15, 45)];
      return [...ring(r, u, 140, 220, pick(r, [4, 6, 8])), { x: -apart / 2, y }, { x: apart / 2, y }];
    },
  },
  {
    name: 'a rectangle about the spigot',
    dowels: 0,
    draw: (r, u) => corners(size(r, u, 70, 140), size(r, u, 70, 140)),
  },
  {
    name: 'a rectangle set off from it',
    dowels: 0,
    draw: (r, u) => corners(size(r, u, 70, 140), size(r, u, 70, 140), size(r, u, 3, 20), size(r, u, 3, 20)),
  },
  {
    name: 'a row set off from it',
    dowels: 0,
    draw: (r, u) => {
      const [n, pitch, y] = [3 + r.below(4), size(r, u, 20, 40), size(r, u, 30, 60)];
      return counted(n).map((k) => ({ x: (k - (n - 1) / 2) * pitch, y }));
    },
  },
  {
    name: 'five holes at coordinates',
    dowels: 0,
    draw: (r, u) =>
      [
        [-1, 1],
        [1, 1],
        [1, -1],
        [-1, -1],
        [0, 1],
      ].map(([i = 0, j = 0]) => ({
        x: i === 0 ? coordinate(r, u, -10, 10) : i * coordinate(r, u, 25, 80),
        y: j * coordinate(r, u, i === 0 ? 90 : 25, i === 0 ? 110 : 80),
      })),
  },
  {
    name: 'a circle and a hole anywhere',
    dowels: 0,
    draw: (r, u) => [...ring(r, u, 140, 220, pick(r, [5, 6, 8])), clockwise(25 + 20 * r.uniform(), 360 * r.uniform())],
  },
];

/**
 * Whether a candidate's places are the true ones, to what it says itself that it does not know (4.2 standard deviations
 * in either direction, and 0.1 µm).
 */
export const isTrue = (c: Candidate | undefined, made: Shop): boolean => {
  if (c === undefined) return false;
  const { ids, points, covariance } = c.pattern;
  const known = (row: number, away: number): boolean =>
    Math.abs(away) <= 4.2 * Math.sqrt(Math.max(0, covariance[row]?.[row] ?? 0)) + 1e-4;
  return ids.every((id, i) => {
    const [said, meant] = [points[i], made.points[made.ids.indexOf(id)]];
    return (
      said !== undefined && meant !== undefined && known(2 * i, said.x - meant.x) && known(2 * i + 1, said.y - meant.y)
    );
  });
};

/** One face of a family: inches two in three; every distance read, to σ 0.015, 0.03 or 0.06 mm. */
export const shopFrom = ({ draw, dowels }: Family, random: Random): Shop => {
  const truth = named(draw(random, unitOf(random)));
  const ids = [...truth.keys()];
  return shopOf(truth, everyDistance(ids, pick(random, [0.015, 0.03, 0.06])), (id) =>
    ids.indexOf(id) >= ids.length - dowels ? 'dowel' : 'stud',
  );
};
