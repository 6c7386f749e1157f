import { type Point, polar, randomFrom } from '@fayplate/core';
import type { Joint } from '@fayplate/plate';
import { bestFit } from '@fayplate/plate';
import { describe, expect, test } from 'vitest';
import { easeOptions } from '../../src/prove/ease.js';
import { leastConvex } from '../../src/prove/ellipsoid.js';

const joint = (id: string, plate: Point, part: Point, clearance: number, role: Joint['role'] = 'fastener'): Joint => ({
  id,
  role,
  plate,
  part,
  clearance: [clearance, clearance],
  along: null,
  made: 0,
});
const easing = (joints: readonly Joint[]) =>
  joints.map((j, i) => ({ joint: j, hole: `H${i + 1}`, cost: 100 + 20 * (i % 3) }));

/** A ring of holes each pushed off by up to `most` mm. */
const pushed = (n: number, seed: number, most: number, clearance: number): readonly Joint[] => {
  const random = randomFrom(seed);
  return Array.from({ length: n }, (_, i) => {
    const p = polar(60, (2 * Math.PI * i) / n);
    return joint(
      `P${i + 1}`,
      { x: p.x + (2 * random.uniform() - 1) * most, y: p.y + (2 * random.uniform() - 1) * most },
      p,
      clearance,
    );
  });
};

/** Metal to be taken at a pose, written apart from the solver. */
const metalAt = (joints: readonly Joint[], x: number, y: number, turn: number): number =>
  easing(joints).reduce((sum, { joint: j, cost }) => {
    const [c, s] = [Math.cos(turn), Math.sin(turn)];
    const off =
      Math.hypot(c * j.plate.x - s * j.plate.y + x - j.part.x, s * j.plate.x + c * j.plate.y + y - j.part.y) -
      j.clearance[0];
    return sum + cost * Math.max(0, off);
  }, 0);

describe('easing', () => {
  test.each([1, 2, 3, 4, 5, 6])(
    'seed %i: no pose of ten thousand tried asks for less metal, and the holes eased so let everything in',
    (seed) => {
      const joints = pushed(6, seed, 1.2, 0.4);
      const [best] = easeOptions(easing(joints), 20);
      expect(best).toBeDefined();
      const random = randomFrom(seed + 100);
      let [x, y, turn] = [0, 0, 0];
      let least = metalAt(joints, x, y, turn);
      for (let k = 0; k < 10_000; k++) {
        const span = k < 5000 ? 1 : 0.05;
        const [nx, ny, nt] = [
          x + random.normal() * span,
          y + random.normal() * span,
          turn + (random.normal() * span) / 60,
        ];
        const m = metalAt(joints, nx, ny, nt);
        if (m < least) [least, x, y, turn] = [m, nx, ny, nt];
      }
      expect(best!.metal).toBeLessThanOrEqual(least * 1.05);
      expect(best!.metal).toBeGreaterThan(least * 0.97 - 1);
      const opened = joints.map((j, i) => {
        const more = best!.eases.find((e) => e.hole === `H${i + 1}`)?.by ?? 0;
        return { ...j, clearance: [j.clearance[0] + more, j.clearance[1] + more] as const };
      });
      expect(bestFit(opened).slack).toBeGreaterThan(-1e-4);
    },
  );

  test('one hole off: only that one is eased, towards where its pin stands', () => {
    const ring = pushed(6, 1, 0, 0.4).map((j, i) =>
      i === 2 ? { ...j, plate: { x: j.plate.x + 1.5, y: j.plate.y } } : j,
    );
    const options = easeOptions(easing(ring), 20);
    const alone = options.find((o) => o.eases.length === 1)!;
    expect(alone.eases[0]!.hole).toBe('H3');
    expect(Math.cos(alone.eases[0]!.towards)).toBeLessThan(-0.9);
    expect(alone.eases[0]!.by).toBeLessThan(1.1);
    for (const o of options) expect(o.eases.map((e) => e.hole)).toContain('H3');
  });

  test('a tight register keeps the others from shifting to help', () => {
    const ring = pushed(6, 1, 0, 0.4).map((j, i) =>
      i === 2 ? { ...j, plate: { x: j.plate.x + 1.5, y: j.plate.y } } : j,
    );
    const held = [...ring, joint('spigot', { x: 0, y: 0 }, { x: 0, y: 0 }, 0, 'locator')];
    const free = easeOptions(easing(ring), 20)[0]!.metal;
    expect(easeOptions(easing(held), 20)[0]!.metal).toBeGreaterThan(free + 1);
  });

  // The dowel may stand anywhere along its slot, whichever way that runs.
  test.each([30, 120, 200])(
    'by hand: a dowel a millimetre along a slot at %d° is let be, and the fastener alone is eased',
    (degrees) => {
      const angle = (degrees * Math.PI) / 180;
      const far = polar(60, angle);
      const slot = { ...joint('D', far, polar(61, angle), 0.001, 'locator'), along: angle };
      const held = [
        joint('spigot', { x: 0, y: 0 }, { x: 0, y: 0 }, 0.001, 'locator'),
        slot,
        joint('P', polar(50, angle + 1), polar(50.3, angle + 1), 0.2),
      ];
      const [best, ...more] = easeOptions(easing(held), 20);
      expect(more).toEqual([]);
      expect(best?.eases).toMatchObject([{ feature: 'P', hole: 'H3', by: expect.closeTo(0.1, 2) }]);
      expect(Math.cos((best?.eases[0]?.towards ?? 0) - angle - 1)).toBeGreaterThan(0.999);
    },
  );

  test('nothing to ease where it goes on, and no answer where the locators do not enter', () => {
    expect(easeOptions(easing(pushed(6, 1, 0.1, 0.4)), 20)).toEqual([]);
    const fight = [
      joint('a', { x: 0, y: 0 }, { x: 0, y: 0 }, 0.01, 'locator'),
      joint('b', { x: 50, y: 0 }, { x: 50.5, y: 0 }, 0.01, 'locator'),
      joint('c', { x: 20, y: 30 }, { x: 20, y: 31 }, 0.2),
    ];
    expect(easeOptions(easing(fight), 20)).toEqual([]);
  });
});

describe('the ellipsoid method', () => {
  // Fermat's point of a triangle (Torricelli): from it the corners are seen under 120°.
  test('finds Fermat’s point', () => {
    const corners = [polar(10, 0.2), polar(7, 2.2), polar(9, 4.4)];
    const found = leastConvex(
      ([x = 0, y = 0]) => {
        const spokes = corners.map((c) => ({ x: x - c.x, y: y - c.y, d: Math.hypot(x - c.x, y - c.y) }));
        return {
          value: spokes.reduce((s, v) => s + v.d, 0),
          slope: [spokes.reduce((s, v) => s + v.x / v.d, 0), spokes.reduce((s, v) => s + v.y / v.d, 0)],
        };
      },
      [1, 1],
      30,
      1e-12,
    )!;
    const [x = 0, y = 0] = found.at;
    const angles = corners.map((c) => Math.atan2(c.y - y, c.x - x)).toSorted((a, b) => a - b);
    expect(angles[1]! - angles[0]!).toBeCloseTo((2 * Math.PI) / 3, 3);
    expect(angles[2]! - angles[1]!).toBeCloseTo((2 * Math.PI) / 3, 3);
  });

  test('keeps within constraints: the corner of x ≥ 1, y ≥ 2, z ≥ 3 nearest the origin', () => {
    const least = [1, 2, 3];
    const found = leastConvex(
      (z) => {
        const k = z.findIndex((v, i) => v < least[i]!);
        if (k >= 0) return { value: null, slope: z.map((_, i) => (i === k ? -1 : 0)) };
        return { value: z.reduce((s, v) => s + v, 0), slope: [1, 1, 1] };
      },
      [10, 10, 10],
      40,
      1e-9,
    )!;
    for (const [i, v] of found.at.entries()) expect(v).toBeCloseTo(least[i]!, 6);
  });

  test('says so where nothing is permitted', () => {
    expect(leastConvex(() => ({ value: null, slope: [1, 0] }), [0, 0], 1, 1e-9)).toBeNull();
  });
});
