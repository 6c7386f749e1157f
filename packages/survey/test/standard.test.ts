import { expect, test } from 'vitest';
import { speechFor } from '@fayplate/core';
import { readJob } from '@fayplate/job';
import { locateFace, locateReport } from '../src/index.js';

const located = (readings: readonly string[]) => {
  const read = readJob(
    `job: x\nunits: mm\ninstruments: { mike: ± 0.02 }\nfaces:\n  motor:\n    standard: IEC FF165\n    readings: [${readings
      .map((r) => `"${r}"`)
      .join(', ')}]\n`,
  );
  if (!read.ok) throw new Error(read.faults.map((f) => f.expected).join('\n'));
  const [face] = read.job.faces;
  if (face === undefined) throw new Error('no face');
  return { face, found: locateFace({ face, instruments: read.job.instruments }) };
};

test('a standard face lies where the standard has it, with the standard’s tolerance for its ±', () => {
  const { found } = located([]);
  const b1 = found.features.get('B1');
  // IEC 60072-1: 165 mm, straddling the upright.
  expect(b1?.x).toBeCloseTo((165 / 2) * Math.SQRT1_2, 3);
  expect(b1?.y).toBeCloseTo((165 / 2) * Math.SQRT1_2, 3);
  expect(Math.sqrt(b1?.covariance[0][0] ?? 0)).toBeGreaterThan(0.05);
  expect(found.undetermined).toEqual([]);
});

test('readings make it surer, and one that does not fit is a suspect', () => {
  const { found: plain } = located([]);
  const { found: measured } = located(['centres B1 B3 = 165.02 by mike', 'centres B2 B4 = 164.97 by mike']);
  const wide = (f: typeof plain): number => f.features.get('B1')?.ellipse95.major ?? 0;
  const narrow = (f: typeof plain): number => f.features.get('B1')?.ellipse95.minor ?? 0;
  expect(narrow(measured)).toBeLessThan(narrow(plain));
  expect(wide(measured)).toBeLessThanOrEqual(wide(plain) + 1e-9);
  expect(measured.suspects).toEqual([]);
  const { found: wrong } = located(['centres B1 B3 = 167.6 by mike']);
  expect(wrong.suspects.length).toBeGreaterThan(0);
});

test('the words say what was taken, and what was measured beside it', () => {
  const words = (readings: readonly string[]): string => {
    const { face, found } = located(readings);
    return JSON.stringify(locateReport(face, found, speechFor('mm')));
  };
  expect(words([])).toContain('Taken from IEC FF165');
  expect(words([])).toContain('Nothing is measured on it yet');
  const tested = words(['dia spigot = 130.02 by mike']);
  expect(tested).toContain('measured 130.020 ± 0.020 mm, the standard has 130 j6 (129.989 to 130.014 mm)');
  expect(tested).not.toContain('Nothing was measured');
  expect(words(['dia spigot = 130.9 by mike'])).toContain('they do not agree');
});
