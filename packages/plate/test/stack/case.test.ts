import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { solveStack } from '../../src/index.js';
import { caseText, jobFrom } from '../support/fromFile.js';

interface Answer {
  readonly worst: { readonly from: number; readonly to: number };
  readonly statistical: { readonly from: number; readonly to: number };
  readonly limits: readonly {
    readonly name: string;
    readonly nominal_without_unknown: number;
    readonly coefficient: number;
    readonly band_worst: number;
    readonly band_statistical: number;
  }[];
}

/** A job file and its answer from a separate program that enumerates every corner; agreement to 1e-4 mm. */
describe('stk02-inches', () => {
  const answer = JSON.parse(
    readFileSync(join(import.meta.dirname, '../../../../test/cases/stk02-inches.json'), 'utf8'),
  ) as Answer;
  const { stack } = jobFrom(caseText('stk02-inches'));
  if (stack === null) throw new Error('the case has no stack');
  const r = solveStack(stack);

  test('windows', () => {
    for (const by of ['worst', 'statistical'] as const) {
      expect(r[by]?.from).toBeCloseTo(answer[by].from, 4);
      expect(r[by]?.to).toBeCloseTo(answer[by].to, 4);
    }
  });

  test.each(answer.limits.map((l) => [l.name, l] as const))('%s', (name, want) => {
    const limit = r.limits.find((l) => l.name === name);
    const nominal = limit?.nominal ?? NaN;
    expect(nominal - want.coefficient * (r.total ?? NaN)).toBeCloseTo(want.nominal_without_unknown, 6);
    expect((limit?.worst[1] ?? NaN) - nominal).toBeCloseTo(want.band_worst, 6);
    expect((limit?.statistical[1] ?? NaN) - nominal).toBeCloseTo(want.band_statistical, 4);
    expect(limit?.ok).toBe(true);
  });
});
