import { DEGREE } from '@fayplate/core';
import { expect, test } from 'vitest';
import { checks } from '../../src/checks/all.js';
import { type Bench, type Part, bench, fasten, plateOf, ring, soundBench } from '../support/plate.js';

const M8 = { kind: 'stud' as const, thread: 'M8', d: 8 };
const screws = { kind: 'hole' as const, thread: 'M8', d: 6.8 };
const tapped = fasten({ as: 'tapped', thread: 'M10', engagement: { times: 1 } });
const sunk = fasten({ head: 'nut', sunk: 'counterbored' });
const away: Part = { spots: ring(3, 100, 0, { kind: 'hole', d: 11 }) };
const register = (value: number, depth: number) => ({
  as: 'register' as const,
  diameter: { value, plusMinus: null },
  depth,
  fit: null,
});
const bored = (more: object = {}): Part => ({
  spots: { C: { kind: 'bore', d: 60, at: { x: 0, y: 0 } }, ...ring(4, 33, 0, M8), ...more },
  face: { centre: 'C' },
});
const square = [
  { at: { x: -130, y: -130 } },
  { at: { x: 130, y: -130 } },
  { at: { x: 130, y: 130 } },
  { at: { x: -130, y: 130 } },
];

/** Every pump place is uncertain by 0.8 mm. */
const vague = (b: Bench): Bench => ({
  ...b,
  used: new Map(
    [...b.used].map(([name, u]) => [
      name,
      name === 'pump'
        ? {
            ...u,
            pattern: {
              ...u.pattern,
              covariance: u.pattern.covariance.map((row, i) => row.map((_, j) => (i === j ? 0.64 : 0))),
            },
          }
        : u,
    ]),
  ),
});

/** Plates that are each wrong in their own way. */
const wrong: readonly Bench[] = [
  soundBench({ limits: { web: 18, edge: null } }),
  soundBench({
    outline: { shape: 'round', margin: null, diameter: 160 },
    bore: { diameter: 64, side: 'through', depth: null },
  }),
  soundBench({
    fasten: new Map([
      ['pump', fasten({ head: 'nut' })],
      ['motor', fasten({ as: 'tapped', thread: 'M10', engagement: { times: 3 }, blind: true })],
    ]),
  }),
  soundBench({ drilling: 0.5, parallel: 0.5, alignment: { offset: 0.001, tilt: 0.001 * DEGREE } }),
  soundBench({
    locate: new Map([
      ['pump', register(59.9, 2)],
      ['motor', register(60.05, 3)],
    ]),
  }),
  soundBench({
    shafts: { apart: { value: 1, plusMinus: null }, toward: { clockwise: 0, within: 0.1 * DEGREE } },
  }),
  soundBench({ thickness: 14 }),
  bench({ spots: ring(3, 50, 0, { ...screws, deep: 6 }) }, away, {
    fasten: new Map([
      ['pump', fasten({ head: 'cap screw' })],
      ['motor', tapped],
    ]),
  }),
  bench({ spots: ring(3, 50, 0, screws) }, away, {
    thickness: 5,
    fasten: new Map([
      ['pump', fasten({ head: 'countersunk screw', sunk: 'countersunk' })],
      ['motor', tapped],
    ]),
  }),
  bench(
    bored(),
    { spots: {} },
    { bore: { diameter: 56, side: 'through', depth: null }, locate: new Map([['pump', register(59.95, 3)]]) },
  ),
  bench(
    { spots: { P1: { ...M8, at: { x: 0, y: 28 } }, P2: { ...M8, at: { x: 16, y: 28 } } } },
    { spots: {} },
    { bore: { diameter: 44, side: 'through', depth: null } },
  ),
  bench(
    { spots: ring(3, 50, 0, M8), face: { rim: square } },
    { spots: ring(3, 100, 0, M8), face: { rim: square } },
    {
      fasten: new Map([
        ['pump', sunk],
        ['motor', sunk],
      ]),
    },
  ),
  bench(
    { spots: ring(3, 50, 0, { ...M8, lean: 2 * DEGREE }) },
    { spots: ring(3, 100, 0, { kind: 'hole', d: 9 }) },
    { fasten: new Map([['motor', tapped]]) },
  ),
  vague(
    bench(
      {
        spots: {
          ...ring(3, 60, 1, M8),
          near: { kind: 'boss', d: 20, height: 5, at: { x: 20, y: 0 } },
          C: { kind: 'spigot', d: 40, at: { x: 0, y: 0 } },
        },
        face: { centre: 'C' },
      },
      { spots: {} },
    ),
  ),
  bench(
    {
      spots: {
        ...ring(3, 60, 1, M8),
        tall: { kind: 'boss', d: 8, height: 7, at: { x: 10, y: 0 } },
        C: { kind: 'spigot', d: 40, at: { x: 0, y: 0 } },
      },
      face: { centre: 'C' },
    },
    { spots: {} },
    { locate: new Map([['pump', register(40.05, 3)]]) },
  ),
  bench(
    { spots: ring(3, 60, 0, { kind: 'dowel', d: 8.01 }) },
    { spots: {} },
    { drilling: 0.1, locate: new Map([['pump', { as: 'own dowels', features: ['P1', 'P2', 'P3'], second: 'round' }]]) },
  ),
  bench({ spots: ring(2, 60, 0, { kind: 'dowel', d: 8.01, stands: 26 }) }, away, {
    fasten: new Map([['motor', tapped]]),
    locate: new Map([['pump', { as: 'own dowels', features: ['P1', 'P2'], second: 'slot' }]]),
  }),
  bench(
    { spots: ring(4, 60, 0, M8) },
    { spots: {} },
    { extras: [{ what: 'jacking', thread: 'M8', circle: 120, clocks: [5 * DEGREE] }] },
  ),
  // A raised spigot too low to hold.
  bench(bored(), { spots: {} }, { locate: new Map([['pump', register(59.95, 0.3)]]) }),
  // A spigot whose recess leaves no room to shift it.
  bench(
    { spots: ring(4, 60, 0, M8) },
    {
      spots: { S: { kind: 'spigot', d: 40, at: { x: 0, y: 0 } }, ...ring(3, 100, 0, { kind: 'hole', d: 11 }) },
      face: { centre: 'S' },
    },
    {
      fasten: new Map([['motor', tapped]]),
      locate: new Map([
        [
          'motor',
          {
            as: 'new dowels',
            count: 2,
            diameter: 6,
            set: { reading: 0.02, register: { diameter: { value: 40.02, plusMinus: null }, depth: 5 } },
          },
        ],
      ]),
    },
  ),
  // A boss that stands through the plate under the other part, and a bore that its shaft does not pass.
  bench(
    {
      spots: { ...ring(3, 60, 0, M8), tall: { kind: 'boss', d: 12, height: 30, at: { x: 25, y: 25 } } },
    },
    { spots: ring(3, 100, 0, M8), face: { rim: square } },
  ),
  bench(
    {
      spots: { ...bored().spots, S: { kind: 'spigot', d: 24, at: { x: 0, y: 0 } } },
      face: { centre: 'C', shaft: 'S' },
    },
    { spots: {} },
    { bore: { diameter: 20, side: 'through', depth: null } },
  ),
];

test('every check fails somewhere, and none fails on a sound plate', () => {
  const failing = new Set(
    wrong.flatMap((b) =>
      plateOf(b, { trials: 50 })
        .checks.filter((c) => !c.ok)
        .map((c): string => c.id),
    ),
  );
  expect(Object.keys(checks).filter((id) => !failing.has(id))).toEqual([]);
  expect(plateOf(soundBench()).checks.filter((c) => !c.ok)).toEqual([]);
});

test('each record lies under its own id, and no two have one title', () => {
  for (const [id, kind] of Object.entries(checks)) expect(kind.id).toBe(id);
  const titles = Object.values(checks).map((kind) => kind.title);
  expect(new Set(titles).size).toBe(titles.length);
});
