import { randomFrom } from '@fayplate/core';
import type { LengthUnit } from '@fayplate/core';
import type { Reading, ReadingKind } from '@fayplate/job';
import { describe, expect, test } from 'vitest';
import { type Misfit, exchanges } from '../../src/guess/written.js';
import { guessSlip } from '../../src/guess/guess.js';

const IN = 25.4;
const reading = (text: string, kind: ReadingKind, features: readonly string[], unit: LengthUnit | null): Reading => ({
  id: '1',
  text,
  kind,
  features,
  value: 0,
  point: null,
  plusMinus: 0.05,
  instrument: 'caliper',
  aside: false,
  note: null,
  unit,
  place: { line: 1, column: 1 },
});

/** Two studs of 10 mm and one of 12 mm whose centres are 60, 75.3 and 93.1 mm apart. */
const apart: Readonly<Record<string, number>> = { 'A B': 60, 'B C': 75.3, 'A C': 93.1 };
const radius: Readonly<Record<string, number>> = { A: 5, B: 5, C: 6 };
const wouldRead = (kind: ReadingKind, features: readonly string[]): number | null => {
  const [a = '', b = ''] = features;
  const d = apart[[a, b].sort().join(' ')];
  const [ra, rb] = [radius[a], radius[b]];
  if (d === undefined || ra === undefined || rb === undefined) return null;
  const model: Partial<Record<ReadingKind, number>> = {
    centres: d,
    over: d + ra + rb,
    between: d - ra - rb,
    step: d - ra + rb,
  };
  return model[kind] ?? null;
};
const misfit = (
  text: string,
  kind: ReadingKind,
  value: number,
  expected: number,
  unit: LengthUnit | null = 'mm',
  sigma = 0.03,
): Misfit => ({
  reading: reading(text, kind, ['A', 'B'], unit),
  value,
  expected,
  sigma,
  wouldRead,
  features: ['A', 'B', 'C'],
});

describe('a plain guess at what went wrong', () => {
  test.each([
    [
      'a tenth of an inch',
      misfit('over A B = 2.856 by caliper', 'over', 2.856 * IN, 2.756 * IN + 0.01, 'in'),
      '0.1 in misread',
    ],
    [
      'a sixteenth on a rule',
      misfit('over A B = 2 13/16 by rule', 'over', 2.8125 * IN, 2.75 * IN + 0.05, 'in', 0.2),
      '1/16 in misread',
    ],
    [
      'a turn of the thimble',
      misfit('over A B = 2.781 by mike', 'over', 2.781 * IN, 2.756 * IN, 'in'),
      '0.025 in (one turn of the thimble, one mark of the vernier) misread',
    ],
    ['ten millimetres', misfit('over A B = 80.02', 'over', 80.02, 70, 'mm'), '10 mm misread'],
    [
      'digits the wrong way round',
      misfit('centres A B = 63.72', 'centres', 63.72, 67.3, 'mm', 0.05),
      'digits swapped: 67.32 meant',
    ],
    ['over for between', misfit('between A B = 70.02', 'between', 70.02, 50), 'over read for between'],
    ['between for over', misfit('over A B = 49.97', 'over', 49.97, 70), 'between read for over'],
    ['mm typed as inches', misfit('over A B = 70.02', 'over', 70.02 * IN, 70, 'in'), 'mm typed as inches'],
    ['inches typed as mm', misfit('over A B = 2.756 mm', 'over', 2.756, 70, 'mm'), 'inches typed as mm'],
    ['the wrong pair', misfit('over A B = 86.33', 'over', 86.33, 70), 'the wrong pair: it fits over C B'],
  ])('%s', (_, at, says) => {
    expect(guessSlip(at)).toBe(says);
  });

  test('a protractor read from its other scale', () => {
    const at: Misfit = {
      ...misfit('angle A C B = 53', 'angle', (53 * Math.PI) / 180, (127.1 * Math.PI) / 180, null, 0.004),
    };
    expect(guessSlip(at)).toBe('the angle read from the other side (180° less it)');
  });

  test('silence where nothing fits within the ±, and where two things fit', () => {
    expect(guessSlip(misfit('over A B = 73.37', 'over', 73.37, 70))).toBeNull();
    // 10 mm more is also what `over` in place of `centres` gives on 10 mm studs.
    expect(guessSlip(misfit('centres A B = 70.00', 'centres', 70, 60))).toBeNull();
  });

  test('an error of no particular size is seldom given a name', () => {
    const random = randomFrom(5);
    const named = Array.from({ length: 2000 }, () => {
      const v = 60 + (random.uniform() * 2 - 1) * 24;
      return guessSlip(misfit(`over A B = ${v.toFixed(3)}`, 'over', v, 60, 'mm', 0.02));
    }).filter((g) => g !== null);
    expect(named.length / 2000).toBeLessThan(0.06);
  });

  test('exchanges change two neighbours and keep the point', () => {
    expect(exchanges('3.51')).toEqual(['5.31', '3.15']);
    expect(exchanges('3 11/32')).toEqual(['3 11/23']);
    expect(exchanges('44')).toEqual([]);
  });
});
