import { speechFor } from '@fayplate/core';
import { tooCloseToPunch } from '@fayplate/machining';
import { describe, expect, test } from 'vitest';
import { holeShapes, punchPoints } from '../../src/template/hole-shapes.js';
import { cutWords } from '../../src/template/words.js';
import { unchanged } from '../../src/geometry/affine.js';
import { drillTemplate } from '../../src/template/drill.js';
import { pumpPlate } from '../plates.js';

const [plain] = pumpPlate.holes;
if (plain === undefined) throw new Error('the plate has holes');
const slot = (length: number) => ({
  ...plain,
  x: 10,
  y: 5,
  as: 'slot' as const,
  diameter: 8,
  slot: { length, angle: 0 },
});

describe('where to punch', () => {
  // Common practice: a drill that overlaps the hole beside it runs off into it.
  test('a slot at both ends where they stand apart, else once in its middle', () => {
    expect(punchPoints(slot(12), unchanged)).toEqual([
      { x: 4, y: 5 },
      { x: 16, y: 5 },
    ]);
    expect(punchPoints(slot(1), unchanged)).toEqual([{ x: 10, y: 5 }]);
  });

  test('a new dowel is reamed at assembly, and the template says so', () => {
    const speech = { unit: 'mm', fraction: null } as const;
    expect(cutWords({ ...plain, as: 'dowel', diameter: 8, feature: null }, speech)).toBe('8 mm reamer, at assembly');
    expect(cutWords({ ...plain, as: 'dowel', diameter: 8, feature: 'pump.D1' }, speech)).toBe('8 mm reamer');
  });
});

// Common practice: paper and punch ± 0.5 mm. A stud of 10 in a hole of 10.3 has 0.15 to spare, one of 8 in 10.3 has
// 1.15.
test('a hole that paper and punch are too coarse for has a ring, no cross, and "by read-out" beside it', () => {
  const nearest = (byReadOut: readonly string[]): number => {
    const drawn = drillTemplate(pumpPlate, 'B', speechFor('mm'), byReadOut);
    const group = drawn.shapes.find((s) => s.kind === 'group' && s.name === 'H1');
    const arms = group?.kind === 'group' ? group.shapes.filter((s) => s.kind === 'path') : [];
    const straight = arms.filter((s) => s.path.edges.every((e) => e.kind === 'line'));
    expect(straight).toHaveLength(4);
    const h = pumpPlate.holes.find((x) => x.id === 'H1');
    return Math.min(...straight.map((s) => Math.hypot(s.path.start.x - (h?.x ?? 0), s.path.start.y - (h?.y ?? 0))));
  };
  expect(nearest([])).toBeLessThan(1);
  // The ticks of a ring keep off the hole: nothing is there to set a punch on.
  expect(nearest(['H1'])).toBeGreaterThan((pumpPlate.holes[0]?.diameter ?? 0) / 2 - 1e-9);
  const { way, labels } = drillTemplate(pumpPlate, 'B', speechFor('mm'), ['H1']);
  expect(way).toEqual({ plusMinus: 0.5, byReadOut: ['H1'] });
  expect(labels.find((l) => l.id === 'H1')?.settings[0]).toContain('by read-out');
  expect(labels.find((l) => l.id === 'H2')?.settings[0]).not.toContain('by read-out');
  expect(holeShapes(plain, 'B', unchanged, true)).not.toEqual(holeShapes(plain, 'B', unchanged));
  const holes = [plain, { ...plain, id: 'H99', fastener: 8 }].map((h) => ({ ...h, as: 'clearance' as const }));
  expect(tooCloseToPunch({ holes }, { faces: [] })).toEqual(['H1']);
});
