import { type Point, distance, randomFrom } from '@fayplate/core';
import { describe, expect, test } from 'vitest';
import { adjust } from '../../src/adjust/adjust.js';
import { chi2At, systemOf } from '../../src/adjust/system.js';
import { locateFace } from '../../src/index.js';
import { networkOf } from '../../src/network/network.js';
import { partsOf } from '../../src/start/parts.js';
import { startAt, startPositions } from '../../src/start/start.js';
import { feature, reading, survey } from '../support.js';

/** Rows of holes, 20 mm apart, each hole read to those of its row that are up to `far` away, and to no other row. */
const rowsOf = (rows: number, wide: number, far: number, seed: number) => {
  const random = randomFrom(seed);
  const at = Array.from({ length: rows * wide }, (_, i): Point => ({
    x: (i % wide) * 20 + 2 * random.uniform(),
    y: Math.floor(i / wide) * 20 + 2 * random.uniform(),
  }));
  const id = (i: number): string => `H${i}`;
  const pairs = at.flatMap((_, i) =>
    Array.from({ length: far }, (__, d) => [i, i + d + 1] as const).filter(
      ([a, b]) => Math.floor(a / wide) === Math.floor(b / wide) && b < at.length,
    ),
  );
  const readings = pairs.map(([a, b], k) =>
    reading(`centres ${id(a)} ${id(b)}`, distance(at[a] as Point, at[b] as Point) + 0.02 * random.normal(), 0.04, {
      id: `${k + 1}`,
    }),
  );
  const features = at.map((_, i) => feature(id(i), { kind: 'hole', diameter: { value: 6, plusMinus: null } }));
  return { at, face: survey(features, readings) };
};

describe('parts that no reading ties together', () => {
  test('are told apart, and what is read on the bench is one', () => {
    const { face } = rowsOf(3, 5, 4, 90_101);
    expect(partsOf(networkOf(face)).map((p) => p.size)).toEqual([5, 5, 5]);
    const table = ['H0', 'H14'].map((id) => reading(`at ${id}`, [1, 2], 0.1));
    const onTable = { ...face, face: { ...face.face, readings: [...face.face.readings, ...table] } };
    expect(partsOf(networkOf(onTable)).map((p) => p.size)).toEqual([10, 5]);
    const joined = reading('centres H0 H9', 40, 0.1);
    const tied = { ...face, face: { ...face.face, readings: [...face.face.readings, joined] } };
    expect(partsOf(networkOf(tied)).map((p) => p.size)).toEqual([10, 5]);
  });

  test('are each found, and where they lie to each other is no arrangement to choose from', () => {
    const { at, face } = rowsOf(3, 6, 5, 90_102);
    const located = locateFace(face);
    expect(located.stopped.converged).toBe(true);
    expect(located.undetermined).toHaveLength(12);
    expect(located.arrangements.rivals).toEqual([]);
    expect(located.arrangements.overlaps).toEqual([]);
    expect(located.freedoms).toHaveLength(2);
    expect(located.next.length).toBeGreaterThan(0);
    const [first, last] = ['H0', 'H5'].map((id) => located.features.get(id) ?? { x: 0, y: 0 });
    expect(distance(first as Point, last as Point)).toBeCloseTo(distance(at[0] as Point, at[5] as Point), 0);
  });

  test('come to rest though there are many of them, each free to slide and to turn', () => {
    for (const seed of [91_000, 91_003, 91_005]) {
      const { at, face } = rowsOf(6, 16, 3, seed);
      const network = networkOf(face);
      const places = new Map(at.map((p, i) => [`H${i}`, p] as const));
      const { stopped, nullSpace } = adjust(network, startAt(network, places).values);
      expect([stopped.converged, nullSpace.length]).toEqual([true, 3 * 6]);
    }
    const { face } = rowsOf(6, 8, 3, 90_104);
    const network = networkOf(face);
    const [start] = startPositions(network);
    // Sound readings give χ² of about their number less the unknowns, of which three are free in each row.
    const spare = network.observations.length - 6 * (2 * 8 - 3);
    const chi2 = chi2At(systemOf(network), start?.values ?? new Float64Array(network.unknowns.count), []);
    expect(chi2).toBeLessThan(spare + 4 * Math.sqrt(2 * spare));
  });
});
