import { describe, expect, test } from 'vitest';
import { jobOf } from './support.js';

const diameter = (written: string, units: 'in' | 'mm') =>
  jobOf(
    `job: v\nunits: ${units}\nfaces:\n  f:\n    features:\n     ` +
      ` A:\n        kind: hole\n        diameter: ${written}\n`,
  ).faces[0]?.features[0]?.diameter;

/**
 * Every form in which a value may be typed (README, Values); 25.4 mm is the inch by definition (ISO 31-1, international
 * inch of 1959).
 */
describe('lengths', () => {
  test.each([
    ['3.531', 'in', 3.531 * 25.4],
    ['3 17/32', 'in', 3.53125 * 25.4],
    ['17/32', 'in', 13.49375],
    ['3-17/32', 'in', 3.53125 * 25.4],
    ['89.7 mm', 'in', 89.7],
    ['3.531 in', 'mm', 3.531 * 25.4],
    ['3.531"', 'mm', 3.531 * 25.4],
    [`2' 3 1/2"`, 'mm', 27.5 * 25.4],
    ['5 thou', 'mm', 0.127],
    ['12', 'mm', 12],
    ['3½', 'in', 88.9],
    ['3\u00a017/32', 'in', 3.53125 * 25.4],
  ] as const)('%s in a job in %s', (written, units, mm) => {
    const d = diameter(written, units);
    expect(d?.value).toBeCloseTo(mm, 9);
    expect(d?.plusMinus).toBeNull();
  });

  test.each([
    ['61.2 ± 0.2 mm', 'in', 61.2, 0.2],
    ['61.2 mm ± 0.2', 'in', 61.2, 0.2],
    ['6.000 ± 0.001', 'in', 152.4, 0.0254],
    ['2.0 mm ± 1/64 in', 'mm', 2, 0.396875],
    ['8 +/- 0.1', 'mm', 8, 0.1],
    ['8 +- 0.1', 'mm', 8, 0.1],
    ['3 17/32 ± 1/64', 'in', 89.69375, 0.396875],
  ] as const)('%s in a job in %s', (written, units, value, plusMinus) => {
    const d = diameter(written, units);
    expect(d?.value).toBeCloseTo(value, 9);
    expect(d?.plusMinus).toBeCloseTo(plusMinus, 9);
  });
});

describe('clocks', () => {
  const clock = (written: string) =>
    jobOf(`job: v\nunits: mm\nfaces: { f: { features: { A: { kind: hole, clock: ${written} } } } }\n`).faces[0]
      ?.features[0]?.clock;

  /** An hour is 30°, 12 is up, clockwise as viewed. */
  test.each([
    ['12', 90],
    ['3', 0],
    ['6', -90],
    ['2', 30],
    ['"9:30"', 165],
    ['9:30', 165],
    ['12:45', 67.5],
  ])('%s points %d° from +x', (written, degrees) =>
    expect(((clock(written) ?? 0) * 180) / Math.PI).toBeCloseTo(degrees, 9),
  );
});

describe('instruments', () => {
  const instruments = jobOf(
    [
      'job: v',
      'units: in',
      'instruments:',
      '  caliper: ± 0.002 in',
      '  bare: 0.002',
      '  rule: { each: ± 1/64 in, zero: ± 1/64 in }',
      '  protractor: ± 0.5 deg',
      '  level: 30°',
      '  sine bar: { each: ± 0.001 rad }',
    ].join('\n'),
  ).instruments;

  test.each([
    ['caliper', 'length', 0.0508, null],
    ['bare', 'length', 0.0508, null],
    ['rule', 'length', 0.396875, 0.396875],
    ['protractor', 'angle', Math.PI / 360, null],
    ['level', 'angle', Math.PI / 6, null],
    ['sine bar', 'angle', 0.001, null],
  ] as const)('%s', (name, measures, each, zero) => {
    const i = instruments.get(name);
    expect(i?.measures).toBe(measures);
    expect(i?.each).toBeCloseTo(each, 12);
    expect(i?.zero === null ? null : i?.zero?.toFixed(9)).toBe(zero === null ? null : zero.toFixed(9));
  });

  test('they keep the order of the file', () => expect([...instruments.keys()][2]).toBe('rule'));
});

/** A telephone's keyboard starts a word with a capital. */
test('words of the format in any case', () => {
  const job = jobOf(
    'job: v\nunits: IN\nfaces: { f: { viewed: From behind, features: { A: { kind: Hole, diameter: 1 } }, readings: ' +
      '[Dia A = 1 ± 0.1, Aside dia A = 1 ± 0.1] } }\n',
  );
  expect(job.units).toBe('in');
  expect(job.faces[0]).toMatchObject({
    viewed: 'from behind',
    features: [{ kind: 'hole', diameter: { value: 25.4 } }],
    readings: [{ kind: 'dia' }, { aside: true }],
  });
});
