import { describe, expect, test } from 'vitest';
import { jobWords, readJob } from '@fayplate/job';
import { lookWords, wordLines } from '../src/index.js';

describe('words of the job file', () => {
  test('every section of a job, and what was found nowhere before', () => {
    const all = lookWords('');
    const paths = jobWords().map((w) => w.path);
    expect(all.ok && (all.json['words'] as readonly unknown[])).toHaveLength(paths.length);
    for (const path of [
      'faces.*.standard',
      'plate.jacking.clock',
      'machine.clamps.from',
      'machine.tip',
      'drilled.clocks',
    ])
      expect(paths).toContain(path);
    const takes = jobWords()
      .flatMap((w) => w.takes)
      .join(' ');
    for (const word of ['boss', 'set stud', 'counterbored', 'from side B', 'a ± such as'])
      expect(takes).toContain(word);
    expect(new Set(paths).size).toBe(paths.length);
  });

  test('one of them by its place, a name in it, or its last part', () => {
    for (const asked of ['faces.NAME.features.NAME.stands', 'faces.pump.features.P1.stands', 'stands']) {
      const found = lookWords(asked);
      const [first] = found.ok
        ? (found.json['words'] as readonly { readonly path: string; readonly unit: string | null }[])
        : [];
      expect(first?.path).toBe('faces.*.features.*.stands');
      expect(first?.unit).toBe('the job’s units');
    }
    const plate = lookWords('plate.fasten');
    const words = plate.ok
      ? (plate.json['words'] as readonly { readonly path: string; readonly left_out: string | null }[])
      : [];
    expect(words.find((w) => w.path.endsWith('.fit'))?.left_out).toBe('normal');
    expect(words.every((w) => w.path.startsWith('plate.fasten'))).toBe(true);
  });

  test.each([
    ['boss', 'faces.*.features.*.kind'],
    ['set stud', 'plate.fasten.*.as'],
    ['Counterbored', 'plate.fasten.*.nut'],
    ['from side B', 'drilled.viewed'],
  ])('%s, a value, by the word that takes it', (value, path) => {
    const found = lookWords(value);
    const words = found.ok ? (found.json['words'] as readonly { readonly path: string }[]) : [];
    expect(words.map((w) => w.path)).toContain(path);
    expect(JSON.stringify(found.ok && found.report)).toContain(`${value} is a value of `);
    expect(lookWords('wombat').ok).toBe(false);
  });

  test('a word that there is not, with the nearest', () => {
    const found = lookWords('jaking');
    expect(found.ok ? null : found.nearest).toBe('jacking');
  });

  test('a default with a decimal point is the whole number, and is said once in a starter', () => {
    expect(jobWords().find((w) => w.path === 'drawing.edges')?.left).toBe('0.5 mm');
    const defaults = jobWords().flatMap(({ left, means }) => (left !== null && means.includes(left) ? [left] : []));
    expect(defaults.length).toBeGreaterThan(10);
    expect(wordLines().filter((line) => line.toLowerCase().split('left out: ').length > 2)).toStrictEqual([]);
  });

  test('what is said to hold where a key is left out does hold', () => {
    const read = readJob(
      'job: x\nunits: mm\nfaces:\n  a: { standard: 56C }\n  b: { standard: FF165 }\nplate: { between: [a, b], ' +
        'thickness: 20, fasten: { a: { as: clearance } } }\ndrilled: { readings: [] }\n',
    );
    const job = read.ok ? read.job : null;
    const left = (path: string): string | null => jobWords().find((w) => w.path === path)?.left ?? null;
    expect(job?.faces[0]?.viewed).toBe(left('faces.*.viewed'));
    expect(job?.faces[0]?.layout.kind).toBe(left('faces.*.layout'));
    expect(job?.plate?.meet).toBe(left('plate.meet'));
    expect(job?.plate?.fasten.get('a')?.fit).toBe(left('plate.fasten.*.fit'));
    expect(String(job?.plate?.fasten.get('a')?.blind)).toBe(left('plate.fasten.*.blind'));
    expect(job?.drilled?.viewed).toBe(left('drilled.viewed'));
  });

  test('the whole starter has every key, and none that a job does not know', () => {
    const lines = wordLines();
    expect(lines.every((l) => l.startsWith('# '))).toBe(true);
    expect(lines).toHaveLength(jobWords().length + 1);
    const text = lines
      .slice(1)
      .map((l) => l.slice(2))
      .join('\n');
    const read = readJob(text);
    const codes = read.ok ? [] : read.faults.map((f) => f.code);
    expect(codes.filter((c) => c === 'unknown-key' || c === 'syntax')).toEqual([]);
  });
});
