import { describe, expect, test } from 'vitest';
import { speechFor } from '@fayplate/core';
import { readJob } from '@fayplate/job';
import { designPlate, oldReport, oldThickness } from '../../src/index.js';
import { motionOf } from '../../src/mate/mate.js';

const text = (more: string): string =>
  `job: x\nunits: mm\ninstruments: { gauge: { each: ± 0.1, zero: ± 0.4 }, caliper: ± 0.05 ` +
  `}\nold:\n${more.replace(/^/gm, '  ')}\n`;
const oldOf = (more: string) => {
  const read = readJob(text(more));
  if (!read.ok) throw new Error(read.faults.map((f) => f.expected).join('\n'));
  if (read.job.old === null) throw new Error('no old plate');
  return read.job.old;
};

describe('the new thickness', () => {
  // By hand: 18.20 + 0.50 + (63.40 − 61.20) = 20.90; ± at the worst 0.05 + 0.02 + 0.1 + 0.1 = 0.27;
  // by chance 3 √(0.025² + 0.01² + 0.05² + 0.05²) = 3 · 0.07566 = 0.2270. The gauge's zero, ± 0.4, is in both reaches.
  test('is the old one and its shims and what the new shaft stands out further', () => {
    const r = oldThickness(
      oldOf('thickness: 18.2 ± 0.05\nshims: 0.5 ± 0.02\nreach: { old: 61.2, new: 63.4, by: gauge }'),
    );
    expect(r.chosen).toBeCloseTo(20.9, 9);
    expect(r.worst).toBeCloseTo(0.27, 9);
    expect(r.statistical).toBeCloseTo(0.227, 3);
    expect(r.cancels).toBeCloseTo(0.4, 9);
  });

  test('does not feel an error that both reaches share', () => {
    const at = (zero: number): number =>
      oldThickness(oldOf(`thickness: 18.2 ± 0.05\nreach: { old: ${61.2 + zero}, new: ${58.4 + zero}, by: gauge }`))
        .value;
    expect(at(0.37)).toBeCloseTo(at(0), 9);
    expect(at(0)).toBeCloseTo(15.4, 9);
  });

  test('is the old one where no reach is stated, and says so', () => {
    const old = oldOf('thickness: 18.2 ± 0.05');
    expect(oldThickness(old).value).toBeCloseTo(18.2, 9);
    expect(JSON.stringify(oldReport(old, speechFor('mm')))).toContain('No reach is stated');
  });

  test('is refused where nothing is left of it', () => {
    const old = oldOf('thickness: 2 ± 0.05\nreach: { old: 61.2, new: 58.4, each: ± 0.05 }');
    expect(oldReport(old, speechFor('mm')).find((b) => b.kind === 'verdict')).toMatchObject({ ok: false });
  });

  test('says the ± of each part, and what cancels', () => {
    const words = JSON.stringify(
      oldReport(oldOf('thickness: 18.2 ± 0.05\nreach: { old: 61.2, new: 63.4, by: gauge }'), speechFor('mm')),
    );
    expect(words).toContain('zero of gauge, in both reaches');
    expect(words).toContain('20.400 ± 0.250 mm');
  });
});

describe('in a job', () => {
  const faces = 'faces:\n  a: { standard: NEMA 56C }\n  b: { standard: IEC FF165 }\n';
  test('the plate is as thick as the old plate says', () => {
    const read = readJob(
      `${text('thickness: 18.2 ± 0.05\nreach: { old: 61.2, new: 63.4, by: gauge }')}${faces}plate: { between: [a, ` +
        `b], thickness: from old }\n`,
    );
    if (!read.ok) throw new Error(read.faults.map((f) => f.expected).join('\n'));
    expect(read.job.plate?.thickness).toBe('from old');
    const made = designPlate(read.job, new Map(), { stack: null });
    expect(made.ok ? '' : made.faults.join(' ')).not.toContain('thickness');
  });

  test.each([
    [`${faces}plate: { between: [a, b], thickness: from old }\n`, 'missing'],
    [
      text('thickness: 18.2 ± 0.05\nreach: { old: 61.2, new: 63.4 }').slice('job: x\nunits: mm\n'.length),
      'no-plus-minus',
    ],
    [
      text('thickness: 18.2 ± 0.05\nreach: { old: 61.2, new: 63.4, by: gage }').slice('job: x\nunits: mm\n'.length),
      'unknown-name',
    ],
  ])('bad input is refused: %#', (rest, code) => {
    const read = readJob(`job: x\nunits: mm\n${rest}`);
    expect(read.ok ? [] : read.faults.map((f) => f.code)).toContain(code);
  });
});

test('what is measured off the old plate is the part seen from behind', () => {
  for (const place of ['first', 'second'] as const)
    for (const turn of [0, 0.7])
      expect(motionOf('off the old plate', place, turn)).toEqual(motionOf('from behind', place, turn));
  expect(motionOf('off the old plate', 'first', 0)).not.toEqual(motionOf('from outside', 'first', 0));
});
