import { apply, point, register, toDegrees } from '@fayplate/core';
import { describe, expect, test } from 'vitest';

// Umeyama 1991, IEEE PAMI 13(4) 376–380: the worked example of three points. The paper scales as well; with the scale
// held at 1 the rotation is the same and the shift and residual are recomputed from the same formulas.
const from = [point(0, 0), point(1, 0), point(0, 2)];
const to = [point(0, 0), point(-1, 0), point(0, 2)];

describe('rigid registration', () => {
  test('the worked example of Umeyama, no scale', () => {
    const m = register(from, to);
    expect(toDegrees(m.turn)).toBeCloseTo(-33.690068, 5);
    expect(Math.cos(m.turn)).toBeCloseTo(0.83205, 5);
    expect(m.shift.x).toBeCloseTo(-0.980484, 5);
    expect(m.shift.y).toBeCloseTo(0.296867, 5);
    const mean =
      from.reduce((s, p, i) => {
        const q = apply(m, p);
        const t = to[i] ?? q;
        return s + (q.x - t.x) ** 2 + (q.y - t.y) ** 2;
      }, 0) / 3;
    expect(mean).toBeCloseTo(0.619755, 5);
  });

  test('a reflection would fit it exactly, and is not taken', () => {
    const m = register(from, to);
    expect(m.mirrored).toBe(false);
    expect(
      from.every(
        (p, i) => Math.abs(apply({ ...m, mirrored: true, turn: 0, shift: point(0, 0) }, p).x - (to[i]?.x ?? 9)) < 1e-12,
      ),
    ).toBe(true);
  });
});
