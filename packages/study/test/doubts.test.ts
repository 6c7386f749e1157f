import { describe, expect, test } from 'vitest';
import { doubtsOf } from '../src/doubts.js';
import type { Study } from '../src/types.js';

/** A plated job of one face whose readings came out so. */
const studyWith = (
  suspects: readonly { readonly reading: string; readonly tiedWith: readonly string[] }[],
  p: number | null,
): Study =>
  ({
    job: { plate: { between: ['pump'] }, faces: [{ name: 'pump' }] },
    located: () => ({
      suspects,
      fit: { p },
      arrangements: { odds: 1, rivals: [], settle: null, overlaps: [], searched: true },
    }),
  }) as unknown as Study;
const words = (s: Study): string => JSON.stringify(doubtsOf(s).report);

describe('what rests on readings that disagree', () => {
  test.each([[0.4], [null]])('nothing is said where they agree (p %s)', (p) => {
    expect(doubtsOf(studyWith([], p))).toEqual({ ok: true, suspects: [], report: [] });
  });

  test('is said to rest on the suspects', () => {
    const study = studyWith([{ reading: '7', tiedWith: ['9'] }], 1e-9);
    expect(doubtsOf(study).ok).toBe(false);
    expect(words(study)).toContain('Settle readings pump:7, pump:9 first');
    expect(words(study)).not.toContain('no single one stands out');
  });

  test('is said where solids would overlap', () => {
    const overlapping = studyWith([], null);
    const one = overlapping.located({} as never);
    const study = {
      ...overlapping,
      located: () => ({ ...one, arrangements: { ...one.arrangements, overlaps: [['P1', 'P2']] } }),
    };
    expect(doubtsOf(study as unknown as Study).ok).toBe(false);
    expect(words(study as unknown as Study)).toContain('P1 and P2 would overlap');
  });

  test('is said where the search for the shape ended at its budget', () => {
    const sound = studyWith([], null);
    const one = sound.located({} as never);
    const study = {
      ...sound,
      located: () => ({ ...one, arrangements: { ...one.arrangements, searched: false } }),
    };
    expect(doubtsOf(study as unknown as Study).ok).toBe(false);
    expect(words(study as unknown as Study)).toContain('used up its steps');
  });

  test('is said and no single one stands out', () => {
    expect(doubtsOf(studyWith([], 1e-5)).ok).toBe(false);
    expect(words(studyWith([], 1e-5))).toContain(
      'readings of pump disagree by more than their ± allow, and no single one stands out',
    );
  });
});
