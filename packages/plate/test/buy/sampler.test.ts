import { randomFrom } from '@fayplate/core';
import type { Face } from '@fayplate/job';
import { layoutFace, usedPattern } from '@fayplate/layout';
import { locateFace } from '@fayplate/survey';
import { readJob } from '@fayplate/job';
import { describe, expect, test } from 'vitest';
import { jointRoot, samplerOf } from '../../src/buy/sampler.js';

const read = (readings: readonly string[], by = ' by rule') => {
  const made = readJob(`
job: a
units: mm
instruments: { rule: ± 1 }
faces:
  high:
    seller: ± 1
    centre: hub
    up: B1
    features:
      hub: { kind: spigot, diameter: 40 ± 1 }
      B1: { kind: hole, diameter: 9 ± 0.01, clock: 12 }
      B2: { kind: hole, diameter: 9 ± 0.01, clock: 3 }
      B3: { kind: hole, diameter: 9 ± 0.01, clock: 6 }
      B4: { kind: hole, diameter: 9 ± 0.01, clock: 9 }
    readings:
${readings.map((r) => `      - ${r}${by}`).join('\n')}
`);
  if (!made.ok) throw new Error(JSON.stringify(made.faults));
  const [face] = made.job.faces as readonly [Face];
  const located = locateFace({ face, instruments: made.job.instruments }, { next: false });
  const layout = layoutFace(face, located);
  const found = usedPattern(face, located, layout);
  if (!found.ok) throw new Error(found.why);
  return { face, layout, used: found.used, instruments: made.job.instruments };
};
const webs = [1, 2, 3, 4].map((i) => `between B${i} hub = 40`);
const chords = [
  [1, 2],
  [2, 3],
  [3, 4],
  [4, 1],
].map(([a, b]) => `centres B${a} B${b} = ${(64.5 * Math.SQRT2).toFixed(3)}`);
const product = (l: Float64Array, n: number, i: number, j: number): number => {
  let s = 0;
  for (let k = 0; k < n; k++) s += (l[n * i + k] ?? 0) * (l[n * j + k] ?? 0);
  return s;
};

describe('a face as its seller’s figures leave it open', () => {
  test('its root gives the centres’ covariance that the survey has, by itself', () => {
    const { face, used, instruments } = read([...webs, ...chords]);
    const root = jointRoot(face, instruments, used) ?? new Float64Array();
    const n = used.pattern.ids.length;
    for (const [i, row] of used.pattern.covariance.entries())
      // Readings of ± 1 on 90 mm bend: a thousandth of a mm² is what that may come to.
      for (const [j, v] of row.entries()) expect(Math.abs(product(root, 3 * n, i, j) - v)).toBeLessThan(4e-3);
  });

  test(
    'a rim that is read to another rim ties centre and radius, by ' +
      'hand: 0.25 + 0.0625 for the place, 0.0625 with the radius',
    () => {
      // With right angles between them the holes’ distances from the hub are web + radius + 4.5, each by itself.
      const angles = ['angle B1 hub B2', 'angle B2 hub B3', 'angle B3 hub B4'].map((a) => `${a} = 90 deg ± 0.5 deg`);
      const { face, used, instruments } = read([...webs.map((w) => `${w} by rule`), ...angles], '');
      const root = jointRoot(face, instruments, used) ?? new Float64Array();
      const n = used.pattern.ids.length;
      const [hub, one] = ['hub', 'B1'].map((id) => used.pattern.ids.indexOf(id)) as [number, number];
      expect(product(root, 3 * n, 2 * n + hub, 2 * n + hub)).toBeCloseTo(0.0625, 4);
      expect(product(root, 3 * n, 2 * one + 1, 2 * n + hub)).toBeCloseTo(0.0625, 4);
      expect(product(root, 3 * n, 2 * one + 1, 2 * one + 1)).toBeCloseTo(0.3125, 4);
    },
  );

  test('a pattern that is nearly surely regular is so in every draw; without its layout its holes stray one by one', () => {
    const { face, layout, used, instruments } = read([...webs, ...chords]);
    const regular = layout.candidates
      .filter((c) => c.circles.some((k) => k.divisions === 4))
      .reduce((s, c) => s + c.odds, 0);
    expect(regular).toBeGreaterThan(0.9);
    const strays = (sampler: ReturnType<typeof samplerOf>): number => {
      const random = randomFrom(3);
      const worst = Array.from({ length: 100 }, () => {
        const { pattern } = sampler(random);
        const radii = pattern.ids.flatMap((id, i) => {
          const p = pattern.points[i];
          return id === 'hub' || p === undefined ? [] : [Math.hypot(p.x, p.y)];
        });
        return Math.max(...radii) - Math.min(...radii);
      });
      return worst.toSorted((a, b) => a - b)[50] ?? 0;
    };
    expect(strays(samplerOf(face, used, layout, instruments))).toBeLessThan(1e-6);
    expect(strays(samplerOf(face, used, null, instruments))).toBeGreaterThan(0.2);
  });
});
