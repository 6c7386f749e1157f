import { DEGREE, circlePath, distance, polar, polygonPath, speechFor } from '@fayplate/core';
import { describe, expect, test } from 'vitest';
import { clockMark, rayExit } from '../../src/template/marks.js';
import { drillTemplate } from '../../src/template/drill.js';
import { pumpPlate } from '../plates.js';

describe('where a ray leaves an outline', () => {
  const box = polygonPath([
    { x: -40, y: -30 },
    { x: 40, y: -30 },
    { x: 40, y: 30 },
    { x: -40, y: 30 },
  ]);
  test.each([0, 20, 36, 38, 90, 143, 200, 300])('by hand: a rectangle at %d°', (degrees) => {
    const [c, s] = [Math.cos(degrees * DEGREE), Math.sin(degrees * DEGREE)];
    expect(rayExit(box, { x: 0, y: 0 }, degrees * DEGREE)).toBeCloseTo(Math.min(40 / Math.abs(c), 30 / Math.abs(s)), 9);
  });
  test('a bay is crossed: the last edge counts, and none behind does', () => {
    const bay = polygonPath([
      { x: -40, y: -30 },
      { x: 40, y: -30 },
      { x: 40, y: 30 },
      { x: 10, y: 30 },
      { x: 10, y: -20 },
      { x: -10, y: -20 },
      { x: -10, y: 30 },
      { x: -40, y: 30 },
    ]);
    expect(rayExit(bay, { x: -30, y: 0 }, 0)).toBeCloseTo(70, 9);
    expect(rayExit(bay, { x: -30, y: 0 }, Math.PI)).toBeCloseTo(10, 9);
    expect(rayExit(circlePath({ x: 90, y: 0 }, 5), { x: 0, y: 0 }, Math.PI)).toBe(0);
  });
  test('the mark stands just inside the edge', () => {
    expect(clockMark(box, { x: 0, y: 0 }, Math.PI / 2).middle).toEqual({
      x: expect.closeTo(0, 9),
      y: expect.closeTo(27.7, 9),
    });
  });
});

// The first stud of either part is its 12 o'clock: the mark must stand on the ray through that hole, whichever side is
// up.
test.each(['A', 'B'] as const)('side %s up: both parts’ 12 o’clock stand over their own first holes', (side) => {
  const template = drillTemplate(pumpPlate, side, speechFor('mm'));
  for (const [part, hole] of [
    ['pump', 'H1'],
    ['motor', 'H8'],
  ] as const) {
    const mark = template.labels.find((l) => l.id === `12 of ${part}`)?.centre ?? { x: 0, y: 0 };
    const at = template.holes.find((h) => h.id === hole)?.at ?? { x: 0, y: 0 };
    expect(distance(mark, polar(118 - 2.3, Math.atan2(at.y, at.x)))).toBeLessThan(0.06);
  }
});
