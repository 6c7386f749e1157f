import { normalBelow, randomFrom } from '@fayplate/core';
import { describe, expect, test } from 'vitest';
import { doubtLeft } from '../../src/buy/telling.js';

/** 400 worlds of two sizes, even in 0 … 1; the outcome rests on the first alone. */
const random = randomFrom(5);
const first = Array.from({ length: 400 }, () => random.uniform());
const second = Array.from({ length: 400 }, () => random.uniform());

describe('how much of a doubt is left', () => {
  test('with nothing known: p (1 − p), and the likelier answer is right as often as it is so', () => {
    const outcomes = [true, true, true, false];
    expect(doubtLeft(outcomes, [])).toEqual({ left: 0.75 * 0.25, right: 0.75 });
  });

  test('none where the size that decides is known, all of it where another is', () => {
    const outcomes = first.map((x) => x < 0.3);
    const base = doubtLeft(outcomes, []).left;
    expect(doubtLeft(outcomes, [first]).left / base).toBeLessThan(0.15);
    expect(doubtLeft(outcomes, [first]).right).toBeGreaterThan(0.96);
    // Told by what has nothing to do with it, two worlds differ as any two: three standard deviations of 400 × 20
    // pairs.
    expect(Math.abs(doubtLeft(outcomes, [second]).left / base - 1)).toBeLessThan(0.15);
  });

  test('an outcome that rests on two sizes alike: either leaves part, both leave little', () => {
    const outcomes = first.map((x, i) => x + (second[i] ?? 0) < 1);
    const base = doubtLeft(outcomes, []).left;
    // Given the first size x the chance is 1 − x: the mean of x (1 − x) over 0 … 1 is 1/6, and 1/4 without it.
    expect(Math.abs(doubtLeft(outcomes, [first]).left / base - 2 / 3)).toBeLessThan(0.12);
    expect(doubtLeft(outcomes, [first, second]).left / base).toBeLessThan(0.3);
  });

  test('does not hang on the unit that a size is written in', () => {
    const outcomes = first.map((x) => x < 0.3);
    const inches = first.map((x) => x / 25.4);
    expect(doubtLeft(outcomes, [inches, second]).left).toBeCloseTo(doubtLeft(outcomes, [first, second]).left, 9);
  });

  test('the same order and nearly the same doubt as by integrating: x of σ 0.5 and y of σ 0.3, together below 0.2', () => {
    const normal = randomFrom(11);
    const worlds = Array.from({ length: 400 }, () => [0.5 * normal.normal(), 0.3 * normal.normal(), normal.normal()]);
    const column = (k: number): readonly number[] => worlds.map((w) => w[k] ?? 0);
    const outcomes = worlds.map(([x = 0, y = 0]) => x + y < 0.2);
    // Mean of Φ (1 − Φ) over the one that is known, by the midpoint rule; Φ of what the other leaves.
    const integrated = (known: number, open: number): number => {
      let sum = 0;
      const n = 4000;
      for (let i = 0; i < n; i++) {
        const u = -6 + (12 * (i + 0.5)) / n;
        const p = normalBelow((0.2 - known * u) / open);
        sum += ((p * (1 - p) * Math.exp(-(u * u) / 2)) / Math.sqrt(2 * Math.PI)) * (12 / n);
      }
      return sum;
    };
    const [byX, byY, byNone] = [0, 1, 2].map((k) => doubtLeft(outcomes, [column(k)]).left) as [number, number, number];
    expect(byX).toBeLessThan(byY);
    expect(byY).toBeLessThan(byNone);
    expect(Math.abs(byX - integrated(0.5, 0.3))).toBeLessThan(0.03);
    expect(Math.abs(byY - integrated(0.3, 0.5))).toBeLessThan(0.03);
  });
});
