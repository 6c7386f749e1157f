import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { readJob } from '@fayplate/job';
import { assembledReport, assembledWith } from '@fayplate/machining';
import { describe, expect, test } from 'vitest';
import { studyOf } from '../src/study.js';

const example = readFileSync(join(import.meta.dirname, '..', '..', '..', 'examples', 'run-out.yaml'), 'utf8');

const found = (text: string) => {
  const read = readJob(text);
  if (!read.ok) throw new Error(read.faults.map((f) => `${f.line}: ${f.expected}`).join('\n'));
  const study = studyOf(read.job, { trials: 50 });
  const { plate, mated } = study.plate();
  const assembled = assembledWith(read.job, plate, mated);
  if (assembled === null) throw new Error('nothing read');
  const words = assembledReport(assembled, plate, { unit: 'mm', fraction: null })
    .flatMap((b) => (b.kind === 'list' ? b.items : b.kind === 'paragraph' ? [b.text] : []))
    .join('\n');
  return { assembled, study, words, verdict: study.verdict() };
};

const without = (line: RegExp): string => example.replace(line, '');
const withLines = (...lines: readonly string[]): string =>
  `${example.slice(0, example.indexOf('assembled:'))}assembled:\n  ` +
  `readings:\n${lines.map((l) => `    - ${l}\n`).join('')}`;

describe('rim and face of a coupling, both shafts turned together', () => {
  /**
   * Rim: the axes lie half of the travel apart. Face: they lean by the travel over the width swept; a part is raised by
   * the lean times the distance of its bolts, measured toward where the faces come nearest (rim-and-face method, common
   * practice; worked by hand).
   */
  test('half of 0.24 apart, shifted back; 0.18 over 120 mm, shimmed by that times the bolts’ distance', () => {
    const { assembled, words } = found(example);
    expect(assembled.part).toBe('motor');
    // M2 lies at 10:30 as drawn, the motor's axis from the pump's: it is shifted toward 4:30.
    const [x = 0, y = 0] = [assembled.offset?.shift?.x, assembled.offset?.shift?.y];
    expect([x / 0.12, y / 0.12]).toEqual([expect.closeTo(Math.SQRT1_2, 3), expect.closeTo(-Math.SQRT1_2, 3)]);
    const thick = new Map(assembled.tilt?.shims.map((s) => [s.feature, s.thick]));
    // Bolts 53.03 mm either side of the axis: 106.07 mm × 0.0015.
    for (const far of ['motor.M1', 'motor.M4']) expect(thick.get(far)).toBeCloseTo(0.1591, 3);
    for (const near of ['motor.M2', 'motor.M3']) expect(thick.get(near)).toBeLessThan(0.0005);
    expect(words).toMatch(/shift motor 0\.120 mm toward 4:30/);
    expect(words).toMatch(/Shim motor toward 3 o’clock: 0\.159 mm at H5 \(motor\.M1\), 0\.159 mm at H8/);
  });

  test('which shaft carries the dial turns the shift round, not the shims', () => {
    const other = found(
      withLines(
        'runout pump about motor = 0.24 high toward M2 by dial',
        'runout face about motor at 60 mm = 0.18 high toward 90 deg by dial',
      ),
    ).assembled;
    const here = found(example).assembled;
    expect(other.offset?.shift?.x).toBeCloseTo(-(here.offset?.shift?.x ?? 0), 9);
    expect(other.tilt?.shims).toEqual(here.tilt?.shims);
  });

  test('the last of each counts, and what is in line is Yes', () => {
    const { verdict, words } = found(
      `${example}    - runout motor about pump = 0.02 high toward M1 by dial\n    - runout face about pump at 60 ` +
        `mm = 0.02 by dial\n`,
    );
    expect(verdict.answer).toBe('yes');
    expect(words).not.toMatch(/shift motor|Shim motor/);
  });

  test('out of line it is No, and says what to do first', () => {
    const { verdict } = found(example);
    expect(verdict.answer).toBe('no');
    expect(verdict.because).toMatch(
      /0\.120 mm out of line, where at most 0\.050 mm is allowed; slacken H5, H6, H7, H8/,
    );
    const tilted = found(withLines('runout face about pump at 60 mm = 0.18 high toward 90 deg by dial'));
    expect(tilted.verdict.because).toMatch(/lean 0\.086° .*; shim motor toward 3 o’clock/);
  });

  test('with no direction it says what to read', () => {
    const { words } = found(withLines('runout motor about pump = 0.24 by dial'));
    expect(words).toMatch(/Which way to shift motor was not read: add where the dial is high/);
  });

  test('a shift that the register forbids is told', () => {
    const held = withLines('runout motor about pump = 0.24 high toward M2 by dial').replace(
      'motor: { dowels: 2, diameter: 6 }',
      'motor: { register: 80.02, fit: H7, depth: 5 }',
    );
    expect(found(held).words).toMatch(/would have to be shifted 0\.120 mm .* C\d holds it to within/);
  });

  test.each([
    ['runout motor about lathe = 0.1 by dial', /the two parts by name \(pump, motor\)/],
    ['runout M1 about pump = 0.1 by dial', /one of the two parts, pump, motor, as in: runout motor about pump/],
    ['over M1 M2 = 100 by dial', /a run-out, such as runout motor about pump = 0.1 mm high toward H1 by dial/],
    ['runout motor about pump = 0.1 high toward Q9 by dial', /a hole of the plate, H1, H2/],
  ])('refused: %s', (line, expected) => {
    const read = readJob(withLines(line));
    expect(read.ok ? [] : read.faults.map((f) => f.expected)).toEqual([expect.stringMatching(expected)]);
  });

  test('before anything is put together nothing is said', () => {
    const read = readJob(without(/assembled:[^]*$/));
    expect(read.ok && read.job.assembled).toBeUndefined();
  });
});
