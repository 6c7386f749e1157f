import { normalBelow, randomFrom } from '@fayplate/core';
import { describe, expect, test } from 'vitest';
import { type GoesOn, type Joint, bestFit, goesOn } from '../../src/index.js';
import { fastener, locator, loose, moved, ring } from './support.js';

/** Agreement of a share with a closed form, in standard errors of that many trials. */
const off = (r: GoesOn, p: number): number => Math.abs(r.probability - p) / Math.sqrt((p * (1 - p)) / r.trials);

/** P(|centre + noise| ≤ r): the law of S. O. Rice 1945, by Simpson's rule over one coordinate. */
const rice = (centre: number, sigma: number, r: number): number => {
  const n = 4000;
  const a = Math.max(-r, centre - 9 * sigma);
  const b = Math.min(r, centre + 9 * sigma);
  if (b <= a) return 0;
  const f = (x: number): number => {
    const half = Math.sqrt(Math.max(r * r - x * x, 0)) / sigma;
    return (
      (Math.exp(-(((x - centre) / sigma) ** 2) / 2) / (sigma * Math.sqrt(2 * Math.PI))) * (2 * normalBelow(half) - 1)
    );
  };
  let sum = f(a) + f(b);
  for (let i = 1; i < n; i += 1) sum += f(a + ((b - a) * i) / n) * (i % 2 === 1 ? 4 : 2);
  return (sum * (b - a)) / n / 3;
};

const trials = 20_000;

describe('against closed forms', () => {
  // Held by two exact dowels, one pin with noise: Rayleigh, P = 1 − exp(−a² / 2σ²).
  test.each([
    [0.1, 0.1],
    [0.2, 0.1],
    [0.3, 0.1],
    [0.05, 0.1],
  ])('one hole, no freedom: clearance %d, σ %d', (clearance, sigma) => {
    const joints = [
      fastener('P', { x: 30, y: 10 }, clearance),
      locator('D1', { x: -60, y: 0 }),
      locator('D2', { x: 60, y: 0 }),
    ];
    const p = 1 - Math.exp(-(clearance ** 2) / (2 * sigma ** 2));
    expect(off(goesOn(loose(joints, [sigma, 0, 0]), { trials, seed: 3 }), p)).toBeLessThan(3.5);
  });

  // A register lets the plate turn, so only the pin's distance from the centre counts: Rice. The arm is short, so that
  // Rice is not merely normal.
  test.each([
    [0.5, 0.2, 0.15, 0],
    [0.3, 0.2, 0.1, 0.05],
    [40, 0.1, 0.12, 0.03],
  ])('one hole and a register: arm %d, σ %d, clearance %d, play %d', (arm, sigma, clearance, play) => {
    const joints = [fastener('P', { x: 0, y: arm }, clearance), locator('spigot', { x: 0, y: 0 }, play)];
    const reach = clearance + play;
    const p = rice(arm, sigma, arm + reach) - (arm > reach ? rice(arm, sigma, arm - reach) : 0);
    expect(off(goesOn(loose(joints, [sigma, 0]), { trials, seed: 4 }), p)).toBeLessThan(3.5);
  });

  // Two holes and nothing to locate: only the distance between the pins counts, Rice with σ√2.
  test.each([
    [80, 0.1, 0.1, 0.05],
    [1, 0.3, 0.2, 0.2],
  ])('clearances', (apart, sigma, a, b) => {
    const joints = [fastener('A', { x: 0, y: 0 }, a), fastener('B', { x: apart, y: 0 }, b)];
    const s = sigma * Math.SQRT2;
    const p = rice(apart, s, apart + a + b) - rice(apart, s, apart - a - b);
    expect(off(goesOn(loose(joints, [sigma, sigma]), { trials, seed: 5 }), p)).toBeLessThan(3.5);
  });

  test('a wrong law is told apart: the same check fails with σ a tenth too large', () => {
    const joints = [
      fastener('P', { x: 30, y: 10 }, 0.2),
      locator('D1', { x: -60, y: 0 }),
      locator('D2', { x: 60, y: 0 }),
    ];
    const p = 1 - Math.exp(-(0.2 ** 2) / (2 * 0.1 ** 2));
    expect(off(goesOn(loose(joints, [0.11, 0, 0]), { trials, seed: 3 }), p)).toBeGreaterThan(6);
  });

  test('the making error of a hole counts as ± / 2 in x and in y', () => {
    const joints = [
      fastener('P', { x: 30, y: 10 }, 0.2, 0.2),
      locator('D1', { x: -60, y: 0 }),
      locator('D2', { x: 60, y: 0 }),
    ];
    expect(off(goesOn(loose(joints, [0, 0, 0]), { trials, seed: 6 }), 1 - Math.exp(-2))).toBeLessThan(3.5);
  });

  test('a hole is somewhere between its limits, evenly', () => {
    const joints: readonly Joint[] = [
      { ...fastener('P', { x: 30, y: 10 }, 0), clearance: [0, 0.3], part: { x: 30.1, y: 10 } },
      locator('D1', { x: -60, y: 0 }),
      locator('D2', { x: 60, y: 0 }),
    ];
    expect(off(goesOn(loose(joints, [0, 0, 0]), { trials, seed: 7 }), 2 / 3)).toBeLessThan(3.5);
  });

  test('shared errors are drawn as shared: a pattern that only moves as one always goes on, one that spreads does not', () => {
    const joints = ring(5, 40).map((p, i) => fastener(`P${i + 1}`, p, 0.05));
    const shared = joints.flatMap(() =>
      [0, 1].map((k) => joints.flatMap(() => [0, 1].map((l) => (k === l ? 0.04 : 0)))),
    );
    expect(goesOn({ joints, covariance: shared }, { trials: 500 }).probability).toBe(1);
    expect(
      goesOn(
        loose(
          joints,
          joints.map(() => 0.2),
        ),
        { trials: 500 },
      ).probability,
    ).toBeLessThan(0.05);
  });
});

describe('every trial is decided as the full solution decides it', () => {
  test('16 holes and a register, near the edge', () => {
    const joints = [
      ...ring(16, 90).map((p, i) => fastener(`P${i + 1}`, p, 0.3, 0.2)),
      locator('spigot', { x: 0, y: 0 }, 0.03),
    ];
    const spec = loose(joints, [...Array.from({ length: 16 }, () => 0.06), 0]);
    const r = goesOn(spec, { trials: 300, seed: 9 });
    const chance = randomFrom(9);
    let hits = 0;
    for (let t = 0; t < 300; t += 1) {
      const sigma = Math.hypot(0.06, 0.1);
      const z = Array.from({ length: 34 }, () => chance.normal());
      for (let i = 0; i < 17; i += 1) chance.uniform();
      const drawn = joints.map((j, i) =>
        j.role === 'locator' ? j : { ...j, part: moved(j.part, sigma * (z[2 * i] ?? 0), sigma * (z[2 * i + 1] ?? 0)) },
      );
      if (bestFit(drawn).slack >= 0) hits += 1;
    }
    expect(r.probability).toBe(hits / 300);
    expect(r.probability).toBeGreaterThan(0.1);
    expect(r.probability).toBeLessThan(0.9);
  });
});

describe('what is said of the chance', () => {
  const joints = [
    ...ring(6, 60).map((p, i) => fastener(`P${i + 1}`, p, 0.25, i === 2 ? 0.6 : 0.1)),
    locator('spigot', { x: 0, y: 0 }, 0.02),
  ];
  const spec = loose(
    joints,
    joints.map((j) => (j.role === 'locator' ? 0 : 0.03)),
  );
  const r = goesOn(spec, { seed: 11 });

  test('the same seed gives the same answer, another seed another within its error', () => {
    expect(goesOn(spec, { seed: 11 })).toEqual(r);
    const other = goesOn(spec, { seed: 12 });
    expect(other.probability).not.toBe(r.probability);
    expect(Math.abs(other.probability - r.probability)).toBeLessThan(5 * r.standardError);
  });

  test('the loosest-known hole is named as the one that stops it most', () => {
    expect(r.worst).toBe('P3');
    expect([...r.stops.values()].reduce((a, b) => a + b, 0)).toBeCloseTo(1, 9);
  });

  test('eased as much as it asks, 997 in 1,000 of the same trials go on, and with less they do not', () => {
    const ease = r.ease ?? 0;
    expect(ease).toBeGreaterThan(0);
    const eased = (by: number): GoesOn =>
      goesOn(
        {
          ...spec,
          joints: joints.map((j) =>
            j.role === 'fastener'
              ? { ...j, clearance: [j.clearance[0] + by / 2, j.clearance[1] + by / 2] as const }
              : j,
          ),
        },
        { seed: 11 },
      );
    expect(eased(ease + 1e-5).probability).toBeGreaterThanOrEqual(0.997);
    expect(eased(ease - 1e-3).probability).toBeLessThan(0.997);
  });

  test('the smallest fit that is enough is proposed; none where the stated one is, or where none is', () => {
    const clearance = (extra: number): readonly (readonly [number, number])[] =>
      joints.map((j) =>
        j.role === 'fastener' ? ([j.clearance[0] + extra, j.clearance[1] + extra] as const) : j.clearance,
      );
    const fits = [
      { name: 'normal', clearances: clearance(0.05) },
      { name: 'loose', clearances: clearance(0.6) },
      { name: 'looser', clearances: clearance(0.9) },
    ];
    expect(goesOn(spec, { seed: 11, fits }).proposal).toBe('loose');
    expect(goesOn(spec, { seed: 11, fits: fits.slice(0, 1) }).proposal).toBeNull();
    expect(
      goesOn(
        { ...spec, joints: joints.map((j, i) => ({ ...j, clearance: clearance(0.6)[i] ?? j.clearance })) },
        { seed: 11, fits },
      ).proposal,
    ).toBeNull();
  });

  test('locators that do not enter are no matter of fasteners: no easing is enough', () => {
    const dowels = [
      locator('D1', { x: -40, y: 0 }, 0.01),
      locator('D2', { x: 40, y: 0 }, 0.01),
      fastener('A', { x: 0, y: 20 }, 0.5),
    ];
    const jammed = goesOn(loose(dowels, [0, 0.2, 0]), { trials: 1000 });
    expect(jammed.ease).toBeNull();
    expect(jammed.worst).toMatch(/^D/);
  });

  test('more clearance never lets fewer on', () => {
    let last = 0;
    for (const extra of [0, 0.05, 0.1, 0.2, 0.4]) {
      const p = goesOn(
        {
          ...spec,
          joints: joints.map((j) => ({ ...j, clearance: [j.clearance[0] + extra, j.clearance[1] + extra] as const })),
        },
        { trials: 2000 },
      ).probability;
      expect(p).toBeGreaterThanOrEqual(last);
      last = p;
    }
  });

  test('progress is told, and never more than all', () => {
    const told: number[] = [];
    goesOn(spec, { trials: 3000, progress: (done, of) => told.push(done / of) });
    expect(told).toEqual([1 / 3, 2 / 3, 1]);
  });

  test('a covariance that does not fit, or is none, is a fault of the caller', () => {
    expect(() => goesOn({ joints, covariance: [[1]] })).toThrow(RangeError);
    expect(() =>
      goesOn({
        joints: joints.slice(0, 1),
        covariance: [
          [1, 2],
          [2, 1],
        ],
      }),
    ).toThrow(RangeError);
    expect(() =>
      goesOn({
        joints: joints.slice(0, 1),
        covariance: [
          [NaN, 0],
          [0, 1],
        ],
      }),
    ).toThrow(RangeError);
  });
});
