import { readJob } from '@fayplate/job';
import { describe, expect, test } from 'vitest';
import { type LocatedFace, locateFace } from '../../src/index.js';

/**
 * Full indicator movement is twice the eccentricity: ASME Y14.5-2018, circular run-out of a feature that is round but
 * out of centre (from memory). All places below are worked by hand from it.
 */
const located = (frame: string, ...lines: readonly string[]): LocatedFace => {
  const read = readJob(
    [
      'job: run-out',
      'units: mm',
      'instruments: { readout: ± 0.002 mm, dial: ± 0.01 mm }',
      'faces:',
      '  motor:',
      ...frame.split('\n').map((l) => `    ${l}`),
      '    features:',
      '      S: { kind: spigot, diameter: 80 }',
      '      D: { kind: stud, diameter: 24 }',
      '      N: { kind: hole, diameter: 9 }',
      '      E: { kind: hole, diameter: 9 }',
      '    readings:',
      ...['at S = (10, 20) by readout', 'at N = (10, 80) by readout', 'at E = (70, 20) by readout', ...lines].map(
        (l) => `      - ${l}`,
      ),
    ].join('\n'),
  );
  if (!read.ok) throw new Error(read.faults.map((f) => f.expected).join('\n'));
  const [face] = read.job.faces;
  if (face === undefined) throw new Error('no face');
  return locateFace({ face, instruments: read.job.instruments }, { next: false });
};

const drive = (l: LocatedFace) => {
  const d = l.features.get('D');
  if (d === undefined) throw new Error('not placed');
  return d;
};

describe('a run-out places one centre about the other', () => {
  test.each([
    // The spigot stands out farthest toward E (+x), so that its centre lies half of 0.12 from the shaft that way.
    ['centre: S\nup: N', 'high toward E', [-0.06, 0]],
    ['centre: S\nup: N', 'high toward 90 deg', [-0.06, 0]],
    ['centre: S\nup: N', "high toward 3 o'clock", [-0.06, 0]],
    ['centre: S\nup: N', 'high toward 210 deg', [0.03, 0.06 * Math.cos(Math.PI / 6)]],
    // The same face, its axes turned a quarter: E is straight up, so that 12 o'clock lies toward E.
    ['centre: S\nup: E', 'high toward 0 deg', [0, -0.06]],
    ['centre: S\nacross: [S, E]', 'high toward 0 deg', [0, -0.06]],
  ] as const)('%s, %s', (frame, high, [x, y]) => {
    const d = drive(located(frame, `runout S about D = 0.12 ${high} by dial`));
    expect(d.x).toBeCloseTo(x, 9);
    expect(d.y).toBeCloseTo(y, 9);
  });

  test('its ± is half the dial’s along, and across what the direction’s ± makes', () => {
    const d = drive(located('centre: S\nup: N', 'runout S about D = 0.12 high toward E ± 10 deg by dial'));
    // ± 0.01 of travel is ± 0.005 of distance; ± 10° at 0.06 mm is ± 0.01047 mm; standard uncertainties are half of
    // either.
    expect(d.covariance[0][0]).toBeCloseTo(0.0025 ** 2, 9);
    // The places that the direction runs through have a ± of their own, a thousandth of it.
    expect(d.covariance[1][1] / (0.0025 ** 2 + (0.06 * ((5 * Math.PI) / 180)) ** 2)).toBeCloseTo(1, 2);
  });

  test('with no direction the centre may lie anywhere on that circle', () => {
    const d = drive(located('centre: S\nup: N', 'runout S about D = 0.12 by dial'));
    expect([d.x, d.y]).toEqual([expect.closeTo(0, 9), expect.closeTo(0, 9)]);
    // Of a point anywhere on a circle of radius e, x² is e² / 2 in the mean.
    for (const k of [0, 1] as const) expect(d.covariance[k][k]).toBeCloseTo(0.06 ** 2 / 2 + 0.0025 ** 2, 9);
  });

  test('it joins the adjustment: two that agree halve the square of the ±, one that contradicts is suspect', () => {
    const line = 'runout S about D = 0.12 high toward E ± 10 deg by dial';
    const two = located('centre: S\nup: N', line, line);
    expect(drive(two).covariance[0][0]).toBeCloseTo(0.0025 ** 2 / 2, 9);
    expect(two.suspects).toEqual([]);
    const three = located('centre: S\nup: N', line, line, 'runout S about D = 0.32 high toward E by dial');
    expect(three.suspects.map((s) => s.reading)).toEqual(['6.along']);
  });

  test('a face that runs out tells nothing of where centres lie', () => {
    const line = 'runout S about D = 0.12 high toward E by dial';
    const [with_, without] = [
      located('centre: S\nup: N', line, 'runout face about D at 40 mm = 0.5 high toward N by dial'),
      located('centre: S\nup: N', line),
    ];
    expect([drive(with_).x, drive(with_).y]).toEqual([drive(without).x, drive(without).y]);
  });
});
