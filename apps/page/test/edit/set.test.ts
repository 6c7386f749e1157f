import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { readJob } from '@fayplate/job';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { between, changed, undoing } from '../../src/edit/change.js';
import { addReading, headOf, readingLines, removeReading, setReading } from '../../src/edit/readings.js';
import { removeAt, setAt } from '../../src/edit/set.js';

const pump = readFileSync(join(import.meta.dirname, '../../../../examples/lift-pump/job.yaml'), 'utf8');
const remarks = (text: string): readonly string[] => text.match(/#.*$/gm) ?? [];
const apply = (text: string, change: ReturnType<typeof setAt>): string => {
  if (change === null) throw new Error('no change');
  return changed(text, change);
};

describe('a value set in a job file', () => {
  test('is the one value that differs, and every remark stays', () => {
    const after = apply(pump, setAt(pump, ['faces', 'pump', 'features', 'P1', 'diameter'], '0.372 ± 0.002'));
    expect(after).toContain('P1: { kind: stud, thread: 3/8-16 UNC, diameter: 0.372 ± 0.002, clock: 12, stands: 3/4 }');
    expect(remarks(after)).toEqual(remarks(pump));
    expect(after.length).toBe(pump.length);
  });

  test('begins the section that is not there yet, one entry a line', () => {
    const bare = 'job: A\nunits: mm\n';
    const one = apply(bare, setAt(bare, ['faces', 'pump', 'features', 'P1'], { kind: 'hole', clock: '9:30' }));
    expect(one).toBe('job: A\nunits: mm\n\nfaces:\n  pump:\n    features:\n      P1: { kind: hole, clock: 9:30 }\n');
    const two = apply(one, setAt(one, ['faces', 'pump', 'features', 'P2'], { kind: 'hole', clock: '3' }));
    expect(two).toContain('P1: { kind: hole, clock: 9:30 }\n      P2: { kind: hole, clock: 3 }\n');
    const three = apply(two, setAt(two, ['faces', 'pump', 'centre'], 'P1'));
    expect(three).toContain('P2: { kind: hole, clock: 3 }\n    centre: P1\n');
    const four = apply(three, setAt(three, ['plate', 'bore', 'diameter'], '30'));
    expect(four.endsWith('\n\nplate:\n  bore: { diameter: 30 }\n')).toBe(true);
    expect(apply(four, setAt(four, ['plate', 'bore', 'side'], 'A'))).toContain('bore: { diameter: 30, side: A }');
    expect(apply(four, removeAt(four, ['plate', 'bore', 'diameter']))).toBe(`${three}\n`);
  });

  test('fills a key that has nothing behind it', () => {
    const bare = 'job: A\nfaces:\n  pump:\n    readings:      # the list\n      # - over A B =  by caliper\n';
    const after = apply(bare, addReading(bare, 'pump', 'centres A B = 4'));
    expect(after).toBe(
      'job: A\nfaces:\n  pump:\n    readings:      # the list\n     ' +
        ' - centres A B = 4\n      # - over A B =  by caliper\n',
    );
    expect(apply(after, addReading(after, 'pump', 'over A B = 5 by caliper'))).toBe(
      'job: A\nfaces:\n  pump:\n    readings:      # the list\n    ' +
        '  - centres A B = 4\n      - over A B = 5 by caliper\n',
    );
  });

  test('is read back by the job’s own reader, for any value at any place of any example', () => {
    const places = [
      ['faces', 'pump', 'flange'],
      ['plate', 'thickness'],
      ['plate', 'bore', 'diameter'],
      ['plate', 'outline', 'margin'],
      ['stack', 'links', 'reach'],
      ['machine', 'step'],
    ];
    fc.assert(
      fc.property(fc.constantFrom(...places), fc.integer({ min: 1, max: 90 }), (path, n) => {
        const after = apply(pump, setAt(pump, path, `${n}.5 mm`));
        const value = path.reduce<unknown>((at, k) => (at as Record<string, unknown>)[k], parse(after));
        expect(value).toBe(`${n}.5 mm`);
        expect(remarks(after)).toEqual(remarks(pump));
        const [was, now] = [parse(pump), parse(after)] as Record<string, Record<string, unknown>>[];
        for (const section of ['job', 'units', 'instruments', 'gaskets', 'print'])
          expect(now?.[section]).toEqual(was?.[section]);
      }),
      { seed: 190_1, numRuns: 60 },
    );
  });
});

describe('readings', () => {
  test('are changed, added and taken out one line each', () => {
    const lines = readingLines(pump, 'pump');
    expect(lines).toHaveLength(18);
    for (const index of [0, 7, 17]) {
      const set = apply(pump, setReading(pump, 'pump', index, 'over P1 P3 = 9 by rule'));
      expect(readingLines(set, 'pump').map((l, i) => (i === index ? lines[i] : l))).toEqual(lines);
      expect(readingLines(set, 'pump')[index]).toBe('over P1 P3 = 9 by rule');
      expect(remarks(set)).toEqual(remarks(pump));
      const out = apply(pump, removeReading(pump, 'pump', index));
      expect(readingLines(out, 'pump')).toEqual(lines.filter((_, i) => i !== index));
      expect(readJob(out).ok).toBe(true);
    }
    const added = apply(pump, addReading(pump, 'motor', 'centres M1 M3 = 165.0 mm by metric'));
    expect(readingLines(added, 'motor').at(-1)).toBe('centres M1 M3 = 165.0 mm by metric');
    expect(readJob(added).ok).toBe(true);
    expect(remarks(added)).toEqual(remarks(pump));
    expect(apply(pump, addReading(pump, null, 'over H1 H4 = 7.9'))).toContain(
      '\n\ndrilled:\n  readings:\n    - over H1 H4 = 7.9\n',
    );
  });

  test.each([
    ['over P1 P3 = 4 by rule', 'over P1 P3'],
    ['aside  square A-B  C-D by square # note', 'square A-B C-D'],
  ])('%s measures %s', (line, head) => {
    expect(headOf(line)).toBe(head);
  });
});

test('a change undone gives the text before, for any change of any text', () => {
  fc.assert(
    fc.property(fc.string({ maxLength: 40 }), fc.string({ maxLength: 40 }), (before, after) => {
      const change = between(before, after);
      expect(change === null).toBe(before === after);
      if (change === null) return;
      expect(changed(before, change)).toBe(after);
      expect(changed(after, undoing(before, change))).toBe(before);
    }),
    { seed: 190_2 },
  );
});
