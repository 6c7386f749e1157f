import { describe, expect, test } from 'vitest';
import { evenly, levels } from '../../src/groups/patterns.js';

describe('levels', () => {
  test('values within the width are one level', () => {
    expect(levels([10.02, -5, 10, 3, 10.01], 0.05)).toEqual({
      means: [-5, 3, expect.closeTo(10.01, 9)],
      of: [2, 0, 2, 1, 2],
    });
  });

  test('even spacing, with places left out', () => {
    expect(evenly([-20, 0, 10.01, 30], 0.05)).toEqual({ places: [0, 2, 3, 5], pitch: 10 });
    expect(evenly([0, 10, 23], 0.05)).toBeNull();
    expect(evenly([4], 0.05)).toBeNull();
  });

  test('a pitch finer than the readings can tell is none', () => expect(evenly([0, 1, 2], 0.6)).toBeNull());
});
