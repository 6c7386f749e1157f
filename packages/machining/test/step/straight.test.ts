import { circlePath, signedArea } from '@fayplate/core';
import { type Plate, type PlateBore, biteOf, bitten, borePath } from '@fayplate/plate';
import { describe, expect, test } from 'vitest';
import { stepSolid } from '../../src/index.js';
import { hole, simple } from '../fixture.js';
import { readSolid } from './kernel.js';
import { passages, topologyOf } from './topology.js';

const text = (p: Plate): string => {
  const made = stepSolid(p);
  if (!made.ok) throw new Error(made.faults.join('\n'));
  return made.text;
};

const pocket = (id: string, x: number, y: number, box: NonNullable<PlateBore['box']>, more: Partial<PlateBore>) =>
  ({
    id,
    kind: 'relief',
    feature: null,
    part: null,
    x,
    y,
    diameter: box.width,
    box,
    limits: null,
    side: 'B',
    depth: null,
    ...more,
  }) satisfies PlateBore;

const key = { length: 40, width: 16, corner: 3, angle: 0.5, behind: 20 };
const corners = (4 - Math.PI) * 3 ** 2;
/** A notch that opens upward at the edge y = 50: it reaches 8 past (x, 30). */
const notch = { length: 60, width: 16, corner: 8, angle: Math.PI / 2, behind: 8, notch: true } as const;
const notchArea = 16 * 20 + (Math.PI * 8 ** 2) / 2;

const throughNotch = (p: Plate, bore: PlateBore): Plate => {
  const bite = biteOf(p.outline.path, borePath(bore));
  if (typeof bite === 'number') throw new Error('no bite');
  return { ...p, bores: [...p.bores, bore], outline: { ...p.outline, path: bitten(bite) } };
};

const disc = (d: number): number => (Math.PI * d * d) / 4;

const cases: readonly (readonly [string, Plate, number, number])[] = [
  [
    'a pocket with straight sides and a window, a hole in the floor of the pocket',
    simple([hole('H1', -40, 0, { land: [0, 15] })], {
      bores: [pocket('C1', -40, 0, key, { depth: 5 }), pocket('C2', 40, 0, { ...key, angle: -1 }, { side: 'through' })],
    }),
    20_000 * 20 - (40 * 16 - corners) * 25 - disc(9) * 15,
    2,
  ],
  [
    'a notch that goes through',
    throughNotch(simple([hole('H1', 0, 0)]), pocket('C1', 30, 30, notch, { side: 'through' })),
    (20_000 - notchArea - disc(9)) * 20,
    1,
  ],
  [
    'a notch with a floor, and a hole in it',
    simple([hole('H1', 30, 32, { land: [0, 14] }), hole('H2', 0, 0)], {
      bores: [pocket('C1', 30, 30, notch, { depth: 6 })],
    }),
    20_000 * 20 - notchArea * 6 - disc(9) * (14 + 20),
    2,
  ],
  [
    'notches with floors from both sides, one with corners, and one that goes through',
    throughNotch(
      simple([hole('H1', 0, 0)], {
        bores: [
          pocket('C1', 30, 30, notch, { depth: 6 }),
          pocket('C2', -30, 30, { ...notch, corner: 2 }, { side: 'A', depth: 12 }),
        ],
      }),
      pocket('C3', 0, -30, { ...notch, angle: -Math.PI / 2 }, { side: 'through' }),
    ),
    20_000 * 20 - notchArea * 6 - (16 * 28 - ((4 - Math.PI) * 2 ** 2) / 2) * 12 - (notchArea + disc(9)) * 20,
    1,
  ],
];

describe('straight sides and notches, read back by a general geometry kernel', () => {
  test.each(cases)('%s: closed, with its passages, and of the volume by hand', async (_, p, volume, through) => {
    const t = topologyOf(text(p));
    expect({ open: t.open, broken: t.broken, twins: t.twins, passages: passages(t) }).toEqual({
      open: 0,
      broken: 0,
      twins: 0,
      passages: through,
    });
    const solid = await readSolid(text(p));
    expect([solid.kind, solid.valid]).toEqual(['Solid', true]);
    expect(Math.abs(solid.volume / volume - 1)).toBeLessThan(1e-6);
    // The measure is fine enough to miss one corner's metal.
    expect(Math.abs(solid.volume / (volume + corners) - 1)).toBeGreaterThan(1e-6);
  });

  test('a notch in a round plate, whose mouth is an arc', async () => {
    const round = simple([hole('H1', 0, 0)]);
    const path = circlePath({ x: 0, y: 0 }, 60);
    const bore = pocket('C1', 40, 0, { ...notch, angle: 0 }, { depth: 6 });
    const bite = biteOf(path, borePath(bore));
    const gone = typeof bite === 'number' ? 0 : Math.PI * 3600 - signedArea(bitten(bite));
    const solid = await readSolid(text({ ...round, bores: [bore], outline: { ...round.outline, path } }));
    expect([solid.kind, solid.valid]).toEqual(['Solid', true]);
    expect(Math.abs(solid.volume / (Math.PI * 3600 * 20 - disc(9) * 20 - gone * 6) - 1)).toBeLessThan(1e-6);
    // By hand: to the arc the notch is 20 long less what the arc falls short of its tangent, over 16 of width.
    const half = Math.asin(8 / 60);
    const segment = 60 ** 2 * (half - Math.sin(half) * Math.cos(half));
    expect(gone).toBeCloseTo(16 * (60 * Math.cos(half) - 40) + segment + (Math.PI * 8 ** 2) / 2, 6);
  });

  test('a hole that breaks into the wall of a notch is told, and so is a pocket', () => {
    const p = simple([hole('H1', 38, 30)], { bores: [pocket('C1', 30, 30, notch, { depth: 6 })] });
    expect(stepSolid(p).ok).toBe(false);
    const q = simple([], {
      bores: [pocket('C1', 30, 30, notch, { depth: 6 }), pocket('C2', 30, 16, key, { depth: 6 })],
    });
    expect(stepSolid(q).ok).toBe(false);
  });
});
