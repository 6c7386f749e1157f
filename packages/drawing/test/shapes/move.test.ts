import { type Motion, apply } from '@fayplate/core';
import { describe, expect, test } from 'vitest';
import { moveShape, shapesBox, text } from '../../src/index.js';
import { letters } from '../fonts.js';
import fc from 'fast-check';

describe('moving shapes', () => {
  test('a mirrored text stands where its mirror image would, but reads as before', () => {
    const mirror: Motion = { turn: 0, shift: { x: 4, y: 1 }, mirrored: true };
    const words = text('note', { x: 10, y: 5 }, 'M10 through', { capital: 3 });
    const before = shapesBox([words], letters);
    const after = shapesBox([moveShape(mirror, words)], letters);
    expect(after?.left).toBeCloseTo(4 - (before?.right ?? 0), 9);
    expect(after?.right).toBeCloseTo(4 - (before?.left ?? 0), 9);
    expect(after?.top).toBeCloseTo((before?.top ?? 0) + 1, 9);
  });

  test('the place goes with the motion', () => {
    fc.assert(
      fc.property(fc.double({ min: -7, max: 7, noNaN: true }), fc.boolean(), (turn, mirrored) => {
        const motion = { turn, mirrored, shift: { x: 3, y: -2 } };
        const moved = moveShape(motion, text('note', { x: 8, y: 1 }, 'H1'));
        if (moved.kind !== 'text') throw new Error('a text stays a text');
        expect(moved.at).toEqual(apply(motion, { x: 8, y: 1 }));
      }),
      { seed: 3, numRuns: 50 },
    );
  });
});
