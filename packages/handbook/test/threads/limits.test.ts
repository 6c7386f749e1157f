import { describe, expect, test } from 'vitest';
import { classLimits, parseThread, threads } from '../../src/index.js';
import { metricTolerances } from '../../src/threads/limits.js';

const limits = (name: string) => {
  const t = parseThread(name);
  if (t === null) throw new Error(name);
  return classLimits(t);
};

// ASME B1.1 limits of size as printed in handbooks, inches: 2A major, 2B minor (from memory).
describe('classes 2A and 2B', () => {
  test.each([
    ['#10-24', 0.1818, 0.189, 0.145, 0.156],
    ['#10-32', 0.1831, 0.1891, 0.156, 0.164],
    ['1/4-20', 0.2408, 0.2489, 0.196, 0.207],
    ['1/4-28', 0.2425, 0.249, 0.211, 0.22],
    ['5/16-18', 0.3026, 0.3113, 0.252, 0.265],
    ['3/8-16', 0.3643, 0.3737, 0.307, 0.321],
    ['3/8-24', 0.3667, 0.3739, 0.33, 0.34],
    ['1/2-13', 0.4876, 0.4985, 0.417, 434 / 1000],
    ['3/4-10', 0.7353, 0.7482, 0.642, 0.663],
    ['1-8', 0.983, 0.998, 0.865, 0.89],
  ])('%s', (name, least, most, minorLeast, minorMost) => {
    const { external, internal } = limits(name);
    expect(external.least / 25.4).toBeCloseTo(least, 4);
    expect(external.most / 25.4).toBeCloseTo(most, 4);
    expect(Math.abs(internal.least / 25.4 - minorLeast)).toBeLessThanOrEqual(0.00051);
    expect(Math.abs(internal.most / 25.4 - minorMost)).toBeLessThanOrEqual(0.00051);
  });
});

// ISO 965-2 limits of size as printed, mm: 6g major, 6H minor (from memory).
describe('classes 6g and 6H', () => {
  test.each([
    ['M3', 2.874, 2.98, 2.459, 2.599],
    ['M4', 3.838, 3.978, 3.242, 3.422],
    ['M5', 4.826, 4.976, 4.134, 4.334],
    ['M6', 5.794, 5.974, 4.917, 5.153],
    ['M8', 7.76, 7.972, 6.647, 6.912],
    ['M10', 9.732, 9.968, 8.376, 8.676],
    ['M12', 11.701, 11.966, 10.106, 10.441],
    ['M16', 15.682, 15.962, 13.835, 14.21],
    ['M20', 19.623, 19.958, 17.294, 17.744],
    ['M24', 23.577, 23.952, 20.752, 21.252],
  ])('%s', (name, least, most, minorLeast, minorMost) => {
    const { external, internal } = limits(name);
    for (const [got, printed] of [
      [external.least, least],
      [external.most, most],
      [internal.least, minorLeast],
      [internal.most, minorMost],
    ] as const)
      expect(Math.abs(got - printed)).toBeLessThan(0.00051);
  });
});

/**
 * ISO 965-1 formulas, µm and mm: es(g) = 15 + 11 P, Td(6) = 180 P^⅔ − 3.15 / √P, TD1(6) = 433 P − 190 P^1.22 below 1 mm
 * and 230 P^0.7 from there. The standard rounds them to preferred numbers 6 % apart and smooths a few, so a table value
 * lies within 8 %.
 */
test('the metric tolerances are the formulas, rounded', () => {
  for (const { pitch: p, g, major6, minor5, minor6 } of metricTolerances.rows) {
    const td = 180 * Math.cbrt(p) ** 2 - 3.15 / Math.sqrt(p);
    const td1 = p < 1 ? 433 * p - 190 * p ** 1.22 : 230 * p ** 0.7;
    expect([p, Math.abs(g - (15 + 11 * p)) <= 1.5]).toEqual([p, true]);
    expect([p, Math.abs(major6 / td - 1) < 0.08]).toEqual([p, true]);
    expect([p, Math.abs((minor6 ?? td1) / td1 - 1) < 0.08]).toEqual([p, true]);
    expect([p, Math.abs(minor5 / (0.8 * td1) - 1) < 0.08]).toEqual([p, true]);
  }
});

// BS 93 normal class, mm: major 0.20 P to 10 BA and 0.25 P from 11, minor of the nut 0.375 P, as the standard's annex B
// was read.
test.each([
  ['0 BA', 0.2, 0.375],
  ['2 BA', 0.162, 0.30375],
  ['10 BA', 0.07, 0.13125],
  ['11 BA', 0.0775, 0.11625],
  ['16 BA', 0.0475, 0.07125],
])('%s tolerances', (name, major, minor) => {
  const { external, internal } = limits(name);
  expect(external.most - external.least).toBeCloseTo(major, 9);
  expect(internal.most - internal.least).toBeCloseTo(minor, 9);
});

describe('every thread', () => {
  test('has limits in order: the bolt below its nominal, the hole above its basic minor', () => {
    for (const t of threads) {
      const { external, internal } = classLimits(t);
      expect([t.name, external.least < external.most && external.most <= t.major]).toEqual([t.name, true]);
      expect([t.name, t.minor <= internal.least && internal.least < internal.most && internal.most < t.major]).toEqual([
        t.name,
        true,
      ]);
      expect([t.name, external.least > t.pitchDiameter]).toEqual([t.name, true]);
    }
  });
});
