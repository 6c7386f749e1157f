import { createRequire } from 'node:module';
import { type Path, polar, randomFrom, signedArea } from '@fayplate/core';
import type { Plate, PlateBore, PlateHole } from '@fayplate/plate';
import { describe, expect, test } from 'vitest';
import { stepSolid } from '../../src/index.js';
import { hole, plate, simple } from '../fixture.js';
import { readSolid } from './kernel.js';
import { volumeByFormula } from './volume.js';

const text = (p: Plate): string => {
  const made = stepSolid(p);
  if (!made.ok) throw new Error(made.faults.join('\n'));
  return made.text;
};
const bore = (
  id: string,
  kind: PlateBore['kind'],
  diameter: number,
  side: PlateBore['side'],
  depth: number | null,
): PlateBore => ({
  id,
  kind,
  feature: null,
  part: null,
  x: 0,
  y: 0,
  diameter,
  limits: null,
  side,
  depth,
});

/** A blank with rounded corners, one of them hollow: lines, outward and inward arcs. */
const rounded: Path = {
  start: { x: -90, y: -60 },
  closed: true,
  edges: [
    { kind: 'line', to: { x: 90, y: -60 } },
    { kind: 'arc', to: { x: 100, y: -50 }, centre: { x: 90, y: -50 }, ccw: true },
    { kind: 'line', to: { x: 100, y: 40 } },
    { kind: 'arc', to: { x: 80, y: 60 }, centre: { x: 100, y: 60 }, ccw: false },
    { kind: 'line', to: { x: -90, y: 60 } },
    { kind: 'arc', to: { x: -100, y: 50 }, centre: { x: -90, y: 50 }, ccw: true },
    { kind: 'line', to: { x: -100, y: -50 } },
    { kind: 'arc', to: { x: -90, y: -60 }, centre: { x: -90, y: -50 }, ccw: true },
  ],
};
const roundedArea = 200 * 120 - 3 * (100 - 25 * Math.PI) - 100 * Math.PI;
const withOutline = (p: Plate, path: Path): Plate => ({ ...p, outline: { ...p.outline, path } });

const every: Plate = withOutline(
  simple(
    [
      hole('H1', 70, 0, { sink: { kind: 'counterbored', diameter: 18, depth: 8, side: 'A' } }),
      hole('H2', 40, 40, { sink: { kind: 'countersunk', diameter: 17, depth: 4, side: 'B' } }),
      hole('H3', -40, 40, { sink: { kind: 'countersunk', diameter: 19, depth: 5, side: 'A' } }),
      hole('H4', -70, 0, {
        depth: 12,
        from: 'B',
        diameter: 8.5,
        as: 'tapped',
        thread: { name: 'M10', major: 10, pitch: 1.5, depth: 10 },
      }),
      hole('H5', -70, -30, { depth: 11, from: 'A', diameter: 10.2 }),
      hole('H6', 70, -35, { slot: { length: 7, angle: 0.6 }, diameter: 6 }),
      hole('H7', 45, -45, { slot: { length: 5, angle: -1.2 }, diameter: 6, depth: 9, from: 'A' }),
      hole('H8', -40, -45, { sink: { kind: 'spotfaced', diameter: 22, depth: 0.5, side: 'B' } }),
    ],
    {
      bores: [
        bore('C1', 'bore', 30, 'through', null),
        bore('C2', 'recess', 50.05, 'A', 4),
        bore('C3', 'spigot', 42, 'B', 3),
      ],
    },
  ),
  rounded,
);

describe('the solid, read back by a general geometry kernel', () => {
  test.each([
    ['a round adapter', plate, Math.PI * 8100],
    ['every kind of cut, a raised spigot, hollow corner', every, roundedArea],
    ['a spigot on side A and none else', simple([], { bores: [bore('C1', 'spigot', 60, 'A', 5)] }), 20_000],
  ])('%s: valid, and equal in volume to the formula to one part in a million', async (_, p, area) => {
    const solid = await readSolid(text(p));
    expect(solid.kind).toBe('Solid');
    expect(solid.valid).toBe(true);
    expect(Math.abs(solid.volume / volumeByFormula(p, area) - 1)).toBeLessThan(1e-6);
  });

  test('every hole is a cylinder of its size at its place, and no other cylinder stands there', async () => {
    const { cylinders } = await readSolid(text(every));
    for (const h of every.holes.filter((h) => h.slot === null)) {
      const there = cylinders
        .filter((c) => Math.hypot(c.x - h.x, c.y - h.y) < 1e-9)
        .map((c) => Number(c.radius.toFixed(9)));
      const wanted = [
        h.diameter / 2,
        ...(h.sink !== null && h.sink.kind !== 'countersunk' ? [h.sink.diameter / 2] : []),
      ];
      expect(new Set(there)).toEqual(new Set(wanted));
    }
    const ends = every.holes.flatMap((h) =>
      h.slot === null ? [] : [-1, 1].map((k) => ({ at: polar((k * h.slot!.length) / 2, h.slot!.angle), h })),
    );
    for (const { at, h } of ends)
      expect(
        cylinders.some(
          (c) => Math.hypot(c.x - h.x - at.x, c.y - h.y - at.y) < 1e-6 && Math.abs(c.radius - h.diameter / 2) < 1e-9,
        ),
      ).toBe(true);
  });

  test('the spigot rises from side B: the box says so', async () => {
    const { box, cones } = await readSolid(text(every));
    const [[, , low], [, , high]] = box as [[number, number, number], [number, number, number]];
    expect([low, high].map((z) => Math.round(z * 1e6) / 1e6)).toEqual([0, 23]);
    expect(cones).toBe(2 * 4); // two countersinks and two drill points, in halves
  });

  test('depths count from the floor of a recess and from the top of a spigot', async () => {
    const sunk = (side: 'A' | 'B', land: readonly [number, number]) =>
      hole('H1', 30, 0, { land, sink: { kind: 'counterbored', diameter: 18, depth: 6, side } });
    const blind = (from: 'A' | 'B', land: readonly [number, number]) =>
      hole('H2', -30, 0, { land, diameter: 8, depth: 7, from });
    const countersunk = (side: 'A' | 'B', land: readonly [number, number]) =>
      hole('H3', 0, 30, { land, diameter: 8, sink: { kind: 'countersunk', diameter: 16, depth: 4, side } });
    const disc = (d: number): number => (Math.PI * d * d) / 4;
    for (const side of ['A', 'B'] as const) {
      for (const [kind, by] of [
        ['recess', 5],
        ['spigot', -5],
      ] as const) {
        const land: readonly [number, number] = side === 'A' ? [by, 20] : [0, 20 - by];
        const long = 20 - by;
        const p = simple([sunk(side, land), blind(side, land), countersunk(side, land)], {
          bores: [bore('C1', kind, 90, side, 5)],
        });
        const solid = await readSolid(text(p));
        expect(solid.valid).toBe(true);
        const wanted =
          20_000 -
          by * disc(90) -
          (disc(9) * (long - 6) + disc(18) * 6) -
          (disc(8) * 7 + (disc(8) * 4) / Math.tan((59 * Math.PI) / 180) / 3) -
          (disc(8) * (long - 4) + (Math.PI * 4 * (64 + 256 + 128)) / 12);
        expect(Math.abs(solid.volume / (wanted + 19 * 20_000) - 1)).toBeLessThan(1e-6);
      }
    }
  });

  test('volume to the formula over seeded plates of random holes', async () => {
    for (let seed = 1; seed <= 5; seed++) {
      const p = randomPlate(seed);
      const solid = await readSolid(text(p));
      expect([seed, solid.valid]).toEqual([seed, true]);
      expect(Math.abs(solid.volume / volumeByFormula(p, 20_000) - 1)).toBeLessThan(1e-6);
    }
  });

  test('the check does find a wrong volume', async () => {
    const thicker = { ...plate, thickness: 20.0001 };
    const solid = await readSolid(text(plate));
    expect(Math.abs(solid.volume / volumeByFormula(thicker, Math.PI * 8100) - 1)).toBeGreaterThan(1e-6);
  });
});

/** Holes of random kinds on a grid wide enough that none touches another. */
const randomPlate = (seed: number): Plate => {
  const random = randomFrom(seed);
  const pick = <T>(items: readonly T[]): T => items[random.below(items.length)]!;
  const holes = Array.from({ length: 18 }, (_, i): PlateHole => {
    const x = -80 + 32 * (i % 6) + random.uniform() * 4;
    const y = -32 + 32 * Math.floor(i / 6) + random.uniform() * 4;
    const diameter = 4 + random.uniform() * 8;
    const side = pick(['A', 'B'] as const);
    const sink = {
      kind: pick(['counterbored', 'countersunk'] as const),
      diameter: diameter + 2 + random.uniform() * 8,
      depth: 1 + random.uniform() * 6,
      side: pick(['A', 'B'] as const),
    };
    return hole(`H${i + 1}`, x, y, {
      diameter,
      from: side,
      ...pick([
        {},
        { depth: 4 + random.uniform() * 10 },
        { sink },
        { slot: { length: 1 + random.uniform() * 6, angle: random.uniform() * 3 } },
      ]),
    });
  });
  return simple(holes);
};

describe('a second reader', () => {
  // occt-import-js reads the file as triangles: its mesh is closed and its volume comes near that of the solid.
  test('finds one body with the same volume to its meshing', async () => {
    const open = createRequire(import.meta.url)('occt-import-js') as () => Promise<{
      ReadStepFile: (
        data: Uint8Array,
        options: object,
      ) => {
        success: boolean;
        meshes: readonly {
          attributes: { position: { array: readonly number[] } };
          index: { array: readonly number[] };
        }[];
      };
    }>;
    const reader = await open();
    const read = reader.ReadStepFile(new TextEncoder().encode(text(every)), {
      linearUnit: 'millimeter',
      linearDeflectionType: 'absolute_value',
      linearDeflection: 0.005,
      angularDeflection: 0.2,
    });
    expect(read.success).toBe(true);
    expect(read.meshes).toHaveLength(1);
    const { attributes, index } = read.meshes[0]!;
    const p = attributes.position.array;
    const corner = (i: number): readonly [number, number, number] => [p[3 * i]!, p[3 * i + 1]!, p[3 * i + 2]!];
    let volume = 0;
    for (let k = 0; k < index.array.length; k += 3) {
      const [a, b, c] = [0, 1, 2].map((j) => corner(index.array[k + j]!)) as [
        [number, number, number],
        [number, number, number],
        [number, number, number],
      ];
      volume +=
        (a[0] * (b[1] * c[2] - b[2] * c[1]) - a[1] * (b[0] * c[2] - b[2] * c[0]) + a[2] * (b[0] * c[1] - b[1] * c[0])) /
        6;
    }
    expect(Math.abs(volume / volumeByFormula(every, roundedArea) - 1)).toBeLessThan(1e-3);
  });
});

describe('what cannot be a solid is said, not written', () => {
  test.each([
    [
      'two holes that break into each other',
      simple([hole('H1', 0, 0), hole('H2', 5, 0)]),
      /H1 and H2 break into each other/,
    ],
    ['a hole on the edge', simple([hole('H1', 98, 0)]), /H1 breaks out of the plate’s outline/],
    ['a drill point through the far side', simple([hole('H1', 0, 0, { depth: 18 })]), /drill’s point of H1/],
    [
      'a hole half in a recess',
      simple([hole('H1', 25, 0)], { bores: [bore('C1', 'recess', 50, 'A', 3)] }),
      /C1 and H1/,
    ],
  ])('%s', (_, p, says) => {
    const made = stepSolid(p);
    expect(made.ok ? '' : made.faults.join(' ')).toMatch(says);
  });

  test('names with quotes and accents are written as the standard has them', () => {
    const made = stepSolid(plate, { name: "O'Neill’s plate ½" });
    expect(made.ok && made.text).toContain("PRODUCT('O''Neill\\X2\\2019\\X0\\s plate \\X2\\00BD\\X0\\'");
  });

  test('the outline’s area is that of its path', () => {
    expect(signedArea(rounded)).toBeCloseTo(roundedArea, 9);
  });
});
