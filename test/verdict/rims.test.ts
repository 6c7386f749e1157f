import { answer } from '@fayplate/study';
import { describe, expect, test } from 'vitest';
import { bare, change, verdictOf } from './job.js';

const round = 'rim: [{ feature: spigot, margin: 60 }]';
const rimmed = (...pieces: readonly string[]): string =>
  change([round, ['rim:', ...pieces.map((p) => `      - ${p}`)].join('\n')]);
const line = (job: string, text: string): number => job.split('\n').findIndex((l) => l.includes(`- ${text}`)) + 1;

/** Rims whose pieces are out of order: the pieces, and the one whose line crosses an earlier one. */
const crossed: readonly (readonly [what: string, pieces: readonly string[], at: string])[] = [
  ['places', ['(95, 95)', '(-95, -95)', '(95, -95)', '(-95, 95)'], '(95, -95)'],
  [
    'features',
    [
      '{ feature: M1, margin: 12 }',
      '{ feature: M3, margin: 13 }',
      '{ feature: M2, margin: 14 }',
      '{ feature: M4, margin: 15 }',
    ],
    '{ feature: M2, margin: 14 }',
  ],
  [
    'features and places',
    [
      '{ feature: M1, margin: 12 }',
      '(95, 95)',
      '{ feature: M3, margin: 13 }',
      '{ feature: M2, margin: 14 }',
      '{ feature: M4, margin: 15 }',
    ],
    '{ feature: M2, margin: 14 }',
  ],
  ['lobes', ['round M1 15', 'round M3 16', 'round M2 17', 'round M4 18'], 'round M2 17'],
  [
    'lines',
    ['line (95, 95) (95, -95)', 'line (-95, -95) (-95, 95)', 'line (80, -95) (-80, -95)', 'line (-80, 95) (80, 95)'],
    'line (-95, -95) (-95, 95)',
  ],
  ['an arc and places', ['arc (95, 95) (110, 0) (95, -95)', '(-95, 95)', '(-95, -95)'], '(-95, -95)'],
];

describe('a rim whose points are out of order is a fault of the file, with its line', () => {
  test.each(crossed)('%s', async (_what, pieces, at) => {
    const job = rimmed(...pieces.map((p) => (p.startsWith('(') ? `"${p}"` : p)));
    for (const command of ['plate', 'check', 'locate', 'layout'] as const) {
      const found = await answer(job, command, { trials: 100 }, bare);
      expect(found.exit).toBe(2);
      expect(found.faults.map((f) => [f.code, f.line])).toEqual([
        ['crossed-rim', line(job, at.startsWith('(') ? `"${at}"` : at)],
      ]);
      expect(found.faults[0]?.expected).toMatch(/the points in order round the part/);
    }
  });
  test('in order they are none', async () => {
    for (const [, pieces] of crossed) {
      const [first = '', ...rest] = pieces;
      const swapped = pieces.length === 4 ? [first, rest[1] ?? '', rest[0] ?? '', rest[2] ?? ''] : null;
      if (swapped === null || first.startsWith('line') || first.startsWith('(')) continue;
      const found = await answer(rimmed(...swapped), 'plate', { trials: 100 }, bare);
      expect([found.faults, found.exit]).toEqual([[], 0]);
    }
  });
  test('a misread reading that puts a rim out of order is told as that', async () => {
    const job = rimmed(
      '{ feature: M1, margin: 12 }',
      '{ feature: M2, margin: 12 }',
      '{ feature: M3, margin: 12 }',
      '{ feature: M4, margin: 12 }',
    ).replace('at M2 = (82.50, 0.01)', 'at M2 = (-99.50, 0.01)');
    const said = await verdictOf(job);
    expect(said.answer).toBe('not yet');
    expect(said.open.join('\n')).toMatch(/of motor do(es)? not agree/);
  });
});
