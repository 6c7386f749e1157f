import { describe, expect, test } from 'vitest';
import { punchPoints } from '../../src/template/hole-shapes.js';
import { cutWords } from '../../src/template/words.js';
import { unchanged } from '../../src/geometry/affine.js';
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
    expect(cutWords({ ...plain, as: 'dowel', diameter: 8, feature: null }, speech)).toBe('ream ⌀8 at assembly');
    expect(cutWords({ ...plain, as: 'dowel', diameter: 8, feature: 'pump.D1' }, speech)).toBe('ream ⌀8');
  });
});
