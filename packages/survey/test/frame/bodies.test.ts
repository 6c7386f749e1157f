import { randomFrom } from '@fayplate/core';
import { describe, expect, test } from 'vitest';
import { adjust } from '../../src/adjust/adjust.js';
import { bodiesOf } from '../../src/frame/bodies.js';
import { networkOf } from '../../src/network/network.js';
import { feature, reading, survey } from '../support.js';

/** Stiff blocks of three holes that nothing ties together but, where `pivot`, one hole that two neighbours share. */
const blocks = (count: number, seed: number, pivot: boolean) => {
  const random = randomFrom(seed);
  const names: string[][] = [];
  const at = new Map<string, readonly [number, number]>();
  for (let k = 0; k < count; k++) {
    const own = ['A', 'B', 'C'].map((s) => `${s}${k}`);
    const shared = names[k - 1]?.[2];
    const ids = pivot && shared !== undefined ? [shared, ...own.slice(1)] : own;
    for (const id of ids)
      if (!at.has(id)) at.set(id, [100 * k + 60 * random.uniform(), 80 * random.uniform()] as const);
    names.push(ids);
  }
  const far = (a: string, b: string): number => {
    const [p, q] = [at.get(a) ?? [0, 0], at.get(b) ?? [0, 0]];
    return Math.hypot(p[0] - q[0], p[1] - q[1]);
  };
  const readings = names.flatMap((ids) =>
    ids.flatMap((a, i) => ids.slice(i + 1).map((b) => reading(`centres ${a} ${b}`, far(a, b), 0.05))),
  );
  const network = networkOf(
    survey(
      [...at.keys()].map((id) => feature(id)),
      readings,
    ),
  );
  const x = new Float64Array(network.unknowns.count);
  for (const s of network.unknowns.features.values()) [x[s.x], x[s.y]] = at.get(s.id) ?? [0, 0];
  return { adjustment: adjust(network, x), names };
};

const sorted = (bodies: readonly (readonly string[])[]): readonly string[] =>
  bodies.map((b) => b.toSorted().join(' ')).toSorted();

describe('stiff bodies among many free motions', () => {
  // Seven motions and fewer are looked at one by one; more, first by a sum of them all.
  test.each([
    [2, false],
    [6, false],
    [4, true],
    [9, true],
  ])('%i blocks, joined at a pivot: %j', (count, pivot) => {
    const { adjustment, names } = blocks(count, 50 + count, pivot);
    expect(adjustment.nullSpace.length).toBe(pivot ? 3 + (count - 1) : 3 * count);
    expect(sorted(bodiesOf(adjustment))).toEqual(sorted(names));
  });

  test('features that a motion parts are in one body with no sum of motions', () => {
    const { adjustment } = blocks(7, 61, false);
    const { values, network, nullSpace } = adjustment;
    const slots = network.unknowns.features;
    const stretch = (a: string, b: string, v: Float64Array): number => {
      const [p, q] = [slots.get(a), slots.get(b)];
      if (p === undefined || q === undefined) return Number.NaN;
      const [dx, dy] = [(values[q.x] ?? 0) - (values[p.x] ?? 0), (values[q.y] ?? 0) - (values[p.y] ?? 0)];
      const along = dx * ((v[q.x] ?? 0) - (v[p.x] ?? 0)) + dy * ((v[q.y] ?? 0) - (v[p.y] ?? 0));
      return Math.abs(along) / Math.hypot(dx, dy) / v.reduce((most, e) => Math.max(most, Math.abs(e)), 0);
    };
    const bodies = bodiesOf(adjustment);
    const ids = [...slots.keys()];
    for (const [i, a] of ids.entries())
      for (const b of ids.slice(i + 1)) {
        const most = Math.max(...nullSpace.map((v) => stretch(a, b, v)));
        expect([a, b, bodies.some((body) => body.includes(a) && body.includes(b))]).toEqual([a, b, most < 1e-6]);
      }
  });
});
