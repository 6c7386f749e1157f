import { type Report, randomFrom, speechFor, sayChance } from '@fayplate/core';
import { describe, expect, test } from 'vitest';
import { type Survey, locateFace, locateReport } from '../../src/index.js';
import { readingsWords } from '../../src/words/suspects.js';
import { feature, hours, instrument, reading, survey } from '../support.js';

const caliper = instrument('caliper', 0.05);
const A = { x: 0, y: 80 };
const places: Readonly<Record<string, { readonly x: number; readonly y: number }>> = {
  S: { x: 0, y: 0 },
  A,
  B: { x: 70, y: -40 },
  C: { x: -72, y: -38 },
};
const between = (a: string, b: string): number =>
  Math.hypot((places[a]?.x ?? 0) - (places[b]?.x ?? 0), (places[a]?.y ?? 0) - (places[b]?.y ?? 0));

const features = [
  feature('S', { kind: 'spigot', diameter: { value: 60, plusMinus: null } }),
  feature('A', { clock: hours(12) }),
  feature('B', { clock: hours(4) }),
  feature('C', { clock: hours(8) }),
];
const kinds = ['over A B', 'over B C', 'over C A', 'between A S', 'between B S', 'between C S'];
const job = (change: (words: string, value: number) => number | null = (_, v) => v): Survey =>
  survey(
    features,
    kinds.flatMap((words) => {
      const [kind, a = '', b = ''] = words.split(' ');
      const value = change(words, kind === 'over' ? between(a, b) + 10 : between(a, b) - 35);
      return value === null ? [] : [reading(words, Number(value.toFixed(2)), 0.05, { instrument: 'caliper' })];
    }),
    { centre: 'S', up: 'A', name: 'pump' },
    [caliper],
  );
const said = (s: Survey): Report => locateReport(s.face, locateFace(s), speechFor('mm'));
const textOf = (r: Report): string =>
  r
    .map((b) =>
      b.kind === 'list'
        ? b.items.join('\n')
        : b.kind === 'table'
          ? b.rows.map((row) => row.join(' ')).join('\n')
          : b.text,
    )
    .join('\n');

describe('a face in words', () => {
  test('sound: yes first, then the frame, the table, the fit in one sentence', () => {
    const report = said(job());
    expect(report[1]).toMatchObject({ kind: 'verdict', ok: true });
    const table = report.find((b) => b.kind === 'table');
    expect(table?.kind === 'table' ? table.rows.map((r) => r[0]) : []).toEqual(['S', 'A', 'B', 'C']);
    expect(table?.kind === 'table' ? table.rows[0]?.[3] : '').toBe('exact');
    expect(textOf(report)).toContain('A is straight up');
    expect(textOf(report)).toContain('1 spare reading');
    expect(textOf(report)).not.toContain('suspect reading');
  });

  test('a shape whose mirror image fits as well is not called plainly fixed', () => {
    const s = job();
    const bare = { ...s, face: { ...s.face, features: s.face.features.map((f) => ({ ...f, clock: null })) } };
    expect(said(bare)[1]).toMatchObject({ kind: 'verdict', text: expect.stringContaining('mirror image') });
    expect(said(s)[1]).toMatchObject({ kind: 'verdict', text: expect.not.stringContaining('mirror image') });
  });

  test('what takes no part is said, in the file or when asked', () => {
    const s = job((words, v) => (words === 'over A B' ? v + 5 : v));
    const words = textOf(locateReport(s.face, locateFace(s, { setAside: ['1'] }), speechFor('mm')));
    expect(words).toContain('Set aside, not used: reading 1, over A B');
    expect(textOf(said(s))).not.toContain('Set aside');
    const inFile = { ...s, face: { ...s.face, readings: s.face.readings.map((r) => ({ ...r, aside: r.id === '1' })) } };
    expect(locateFace(inFile).aside).toEqual([{ id: '1', text: s.face.readings[0]?.text }]);
    const marked = {
      ...s,
      face: {
        ...s.face,
        readings: s.face.readings.map((r) => (r.id === '1' ? { ...r, aside: true, text: `aside ${r.text}` } : r)),
      },
    };
    expect(textOf(said(marked))).toContain('reading 1, over A B');
  });

  test('readings that all disagree a little, none of them much, are not called sound', () => {
    // Every distance between twelve points on a circle, each 1.42 standard uncertainties long or short.
    const random = randomFrom(12);
    const angles = Array.from({ length: 12 }, (_, k) => Math.PI / 2 - (2 * Math.PI * k) / 12);
    const readings = angles.flatMap((a, i) =>
      angles
        .slice(i + 1)
        .map((b, k) =>
          reading(
            `centres H${i} H${i + 1 + k}`,
            120 * Math.abs(Math.sin((a - b) / 2)) + (random.uniform() < 0.5 ? 0.0355 : -0.0355),
            0.05,
          ),
        ),
    );
    const s = survey(
      angles.map((clock, k) => feature(`H${k}`, { clock })),
      readings,
    );
    const located = locateFace(s);
    expect(located.suspects).toEqual([]);
    expect(located.fit.p).toBeLessThan(0.001);
    const report = locateReport(s.face, located, speechFor('mm'));
    expect(report[1]).toMatchObject({ kind: 'verdict', ok: false });
    expect(textOf(report)).toContain('disagree by more than their ± allow');
    expect(textOf(report)).not.toContain('no reading is suspect');
  });

  test('where many stand out, the ± that they would agree with is said, and they do', () => {
    const random = randomFrom(12);
    const angles = Array.from({ length: 8 }, (_, k) => Math.PI / 2 - (2 * Math.PI * k) / 8);
    const errors = Array.from({ length: 28 }, () => 0.2 * random.normal());
    const withBand = (band: number) => {
      const left = [...errors];
      const readings = angles.flatMap((a, i) =>
        angles
          .slice(i + 1)
          .map((b, k) =>
            reading(`centres H${i} H${i + 1 + k}`, 120 * Math.abs(Math.sin((a - b) / 2)) + (left.pop() ?? 0), band),
          ),
      );
      return survey(
        angles.map((clock, k) => feature(`H${k}`, { clock })),
        readings,
      );
    };
    const words = textOf(said(withBand(0.05)));
    const [, many, wider] =
      /(\d+) readings are wrong, or a ± is too small: with every ± ([\d.]+) times as wide they would agree\./.exec(
        words,
      ) ?? [];
    expect(Number(many)).toBe(locateFace(withBand(0.05)).suspects.length);
    // Half of the ± is one standard uncertainty: 0.2 to 0.025.
    expect(Number(wider)).toBeGreaterThan(6);
    expect(Number(wider)).toBeLessThan(10);
    const { fit } = locateFace(withBand(0.05 * Number(wider)));
    expect(fit.chi2 / fit.dof).toBeCloseTo(1, 1);
  });

  test('a misread one: size, what it moves, a guess, the least error that would be found', () => {
    // Four studs, so that every reading is checked more than once and the misread one can be told from the rest.
    const four = [...features, feature('D', { clock: hours(2) })];
    const all = new Map([...Object.entries(places), ['D', { x: 66, y: 45 }]]);
    const at = (id: string) => all.get(id) ?? { x: 0, y: 0 };
    const pairs = ['S', 'A', 'B', 'C', 'D'].flatMap((a, i, list) => list.slice(i + 1).map((b) => [a, b] as const));
    const readings = pairs.map(([a, b]) => {
      const d = Math.hypot(at(a).x - at(b).x, at(a).y - at(b).y);
      const words = a === 'S' ? `between ${b} S` : `over ${a} ${b}`;
      return reading(
        words,
        Number((a === 'S' ? d - 35 : d + 10 + (b === 'C' && a === 'B' ? 10 : 0)).toFixed(2)),
        0.05,
        { instrument: 'caliper' },
      );
    });
    const report = said(survey(four, readings, { centre: 'S', up: 'A' }, [caliper]));
    const words = textOf(report);
    expect(report[1]).toMatchObject({ kind: 'verdict', ok: false });
    expect(words).toContain('over B C');
    expect(words).toContain('too large by about 9.999 mm');
    expect(words).toContain('Perhaps 10 mm misread');
    expect(words).toMatch(/Without it .* moves by/);
    expect(words).toContain('4 times in 5');
    expect(words).toMatch(/is called suspect by mistake \d+ % of the time/);
    expect(words).toContain('`aside`');
  });

  test('what is not fixed is said plainly, with readings that would fix it', () => {
    const report = said(job((words, v) => (words.includes('C') ? null : v)));
    expect(report[1]).toMatchObject({ ok: false, text: 'The readings do not fix C.' });
    expect(textOf(report)).toContain('C');
    expect(textOf(report)).toContain('not fixed');
  });

  test('no jargon of statistics without its meaning', () => {
    for (const r of [said(job()), said(job((w, v) => (w === 'over A B' ? v + 3 : v)))]) {
      expect(textOf(r)).not.toMatch(/chi|χ|dof|degrees of freedom|sigma|σ|p-value|redundan|covarian/i);
    }
  });

  test('chances as people say them', () => {
    expect([0.85, 0.5, 0.01, 0.003, 0.001, 0.0001, 0.999].map(sayChance)).toEqual([
      '85 % of the time',
      '50 % of the time',
      '1 % of the time',
      '0.3 % of the time',
      '0.1 % of the time',
      'less than 0.1 % of the time',
      'more than 99 % of the time',
    ]);
  });

  test('readings that cannot be told apart are said to be so in the verdict, not one of them blamed', () => {
    const readings = [
      ['centres A S', 50],
      ['centres B S', 50],
      ['centres A B', 71.5],
      ['angle A S B', 90],
    ] as const;
    const report = said(
      survey(
        [feature('S', { kind: 'spigot' }), feature('A', { clock: hours(12) }), feature('B', { clock: hours(3) })],
        readings.map(([words, value]) => reading(words, value, 0.1)),
        { centre: 'S', up: 'A' },
      ),
    );
    expect(report[1]).toMatchObject({ kind: 'verdict', ok: false });
    expect(textOf(report.slice(1, 2))).toMatch(/^One of readings \d, \d, \d and \d does not agree with the rest\.$/);
  });

  test.each([
    [['2'], 'reading 2'],
    [['2', '3', 'diameter P1'], 'readings 2 and 3 and the stated diameter of P1'],
    [['diameter P1', 'diameter P2'], 'the stated diameters of P1 and P2'],
  ])('%s: %s', (ids, words) => {
    expect(readingsWords(ids)).toBe(words);
  });
});
