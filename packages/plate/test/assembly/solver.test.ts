import { randomFrom } from '@fayplate/core';
import { describe, expect, test } from 'vitest';
import { barrier } from '../../src/assembly/follow.js';
import { columnsOf } from '../../src/assembly/pose.js';
import { workFor } from '../../src/assembly/linear.js';
import { minimaxSolver, startPose } from '../../src/assembly/minimax.js';
import { fastener, moved, ring } from './support.js';

describe('the barrier', () => {
  // Products of many small or large factors would leave double precision: 400 of 0.01 are 1e-800.
  test.each([0.1, 1, 10])('is the plain sum of logarithms, however many joints of clearance %d', (clearance) => {
    const r = randomFrom(7);
    const joints = ring(400, 200).map((p, i) => fastener(`P${i}`, p, clearance));
    const c = columnsOf(joints);
    const w = workFor(c.n);
    for (let i = 0; i < c.n; i += 1) {
      w.bx[i] = 0.3 * clearance * r.normal();
      w.by[i] = 0.3 * clearance * r.normal();
    }
    const s = 3 * clearance;
    const sum = joints.reduce(
      (total, _, i) => total - Math.log((clearance + s) ** 2 - (w.bx[i] ?? 0) ** 2 - (w.by[i] ?? 0) ** 2),
      5 * s,
    );
    expect(barrier(c, w, 5, 0, 0, 0, s) / sum).toBeCloseTo(1, 12);
  });
});

describe('the lower bound', () => {
  test('meets the value from below, slots across any line among the joints', () => {
    for (let seed = 1; seed <= 30; seed += 1) {
      const r = randomFrom(seed);
      const joints = ring(3 + (seed % 5), 60).map((p, i) => ({
        ...fastener(`P${i}`, p, 0.1 + 0.4 * r.uniform()),
        part: moved(p, 0.3 * r.normal(), 0.3 * r.normal()),
        along: i < 2 ? Math.PI * r.uniform() : null,
      }));
      const c = columnsOf(joints);
      const { value, bound } = minimaxSolver(c.n)(c, startPose(c), 'value');
      expect([seed, value - bound > -1e-9, value - bound < 1e-5]).toEqual([seed, true, true]);
    }
  });
});
