import { describe, expect, test } from 'vitest';
import { bench, plateOf, ring, soundBench } from './support/plate.js';

const stud = { kind: 'stud' as const, thread: 'M8', d: 8 };
const register = (face: string, value: number, depth: number | null, fit: string | null = null) =>
  new Map([[face, { as: 'register' as const, diameter: { value, plusMinus: null }, depth, fit }]]);
const centred = (kind: 'spigot' | 'bore', more: object = {}) => ({
  spots: { C: { kind, at: { x: 0, y: 0 }, d: 60, ...more }, ...ring(4, 60, 0, stud) },
  face: { centre: 'C' },
});
const other = { spots: ring(3, 80, 1, { kind: 'hole', thread: 'M8', d: 6.8 }) };

describe('registers', () => {
  test('a spigot goes into a recess on its own side, a bore takes a raised spigot', () => {
    const recess = plateOf(bench(centred('spigot'), other, { locate: register('pump', 60.05, 3) })).bores;
    expect(recess).toMatchObject([
      { id: 'C1', kind: 'recess', feature: 'pump.C', side: 'A', depth: 3, diameter: 60.05 },
    ]);
    const raised = plateOf(bench(other, centred('bore'), { locate: register('motor', 59.95, 2.5) })).bores;
    expect(raised).toMatchObject([{ kind: 'spigot', feature: 'motor.C', side: 'B', depth: 2.5, diameter: 59.95 }]);
  });
  test('a tolerance class becomes limits', () => {
    // ISO 286: H7 for 50 to 80 mm is 0 to + 30 µm, g6 − 10 to − 29 µm.
    expect(
      plateOf(bench(centred('spigot'), other, { locate: register('pump', 60, 3, 'H7') })).bores[0]?.limits?.map((l) =>
        l.toFixed(3),
      ),
    ).toEqual(['60.000', '60.030']);
    expect(
      plateOf(bench(centred('bore'), other, { locate: register('pump', 60, 3, 'g6') })).bores[0]?.limits?.map((l) =>
        l.toFixed(3),
      ),
    ).toEqual(['59.971', '59.990']);
  });
  test('a depth that is not given comes from how far the spigot stands out', () => {
    expect(
      plateOf(bench(centred('spigot', { stands: 4 }), other, { locate: register('pump', 60.05, null) })).bores[0]
        ?.depth,
    ).toBe(4.5);
    expect(plateOf(bench(centred('spigot'), other, { locate: register('pump', 60.05, null) })).bores[0]?.depth).toBe(3);
  });
});

describe('relief', () => {
  const boss = { B: { kind: 'boss' as const, d: 22, height: 6, at: { x: 20, y: -20 } }, ...ring(4, 60, 0, stud) };
  test('a boss gets a pocket a millimetre larger all round and deeper, on its own side', () => {
    expect(plateOf(bench({ spots: boss }, other)).bores).toMatchObject([
      { kind: 'relief', feature: 'pump.B', diameter: 24, depth: 7, side: 'A', x: 20, y: -20 },
    ]);
    expect(plateOf(bench(other, { spots: boss })).bores).toMatchObject([{ kind: 'relief', side: 'B', x: -20, y: -20 }]);
  });
  test('one that is higher than the plate, or of unknown height, goes through', () => {
    expect(plateOf(bench({ spots: { ...boss, B: { ...boss.B, height: 19.5 } } }, other)).bores[0]).toMatchObject({
      side: 'through',
      depth: null,
    });
    expect(
      plateOf(bench({ spots: { ...boss, B: { kind: 'boss', d: 22, at: { x: 20, y: -20 } } } }, other)).bores[0],
    ).toMatchObject({ side: 'through', depth: null });
  });
  test('none where the bore clears it already', () => {
    const plate = plateOf(
      bench({ spots: { ...ring(4, 60, 0, stud), B: { kind: 'boss', d: 10, height: 5, at: { x: 2, y: 0 } } } }, other, {
        bore: { diameter: 40, side: 'through', depth: null },
      }),
    );
    expect(plate.bores.map((b) => b.kind)).toEqual(['bore']);
  });
  test('a spigot that locates nothing is cleared too', () => {
    expect(plateOf(bench(centred('spigot', { stands: 4 }), other)).bores).toMatchObject([
      { kind: 'relief', diameter: 62, depth: 5 },
    ]);
  });
});

describe('land', () => {
  test('a hole on the floor of a recess starts there', () => {
    const spots = {
      C: { kind: 'spigot' as const, at: { x: 0, y: 0 }, d: 100 },
      ...ring(4, 30, 0, stud),
      Q: { ...stud, at: { x: 80, y: 0 } },
    };
    const plate = plateOf(bench({ spots, face: { centre: 'C' } }, other, { locate: register('pump', 100.05, 3) }));
    expect(plate.holes.map((h) => h.land).slice(0, 5)).toEqual([
      [3, 20],
      [3, 20],
      [3, 20],
      [3, 20],
      [0, 20],
    ]);
  });
  test('a hole that falls into an opening has none: it breaks in, whether a spigot stands round the opening or not', () => {
    const spots = {
      C: { kind: 'bore' as const, at: { x: 0, y: 0 }, d: 60 },
      ...ring(4, 70, 0, stud),
      Q: { ...stud, at: { x: 12, y: 0 } },
    };
    for (const locate of [new Map(), register('pump', 59.95, 3)]) {
      const plate = plateOf(
        bench({ spots, face: { centre: 'C' } }, other, {
          locate,
          bore: { diameter: 40, side: 'through', depth: null },
        }),
      );
      const id = plate.holes.find((h) => h.feature === 'pump.Q')?.id ?? '';
      expect(plate.holes.find((h) => h.id === id)?.land).toEqual([0, 0]);
      const web = plate.checks.find((c) => c.rule === 'web between cuts' && c.of.includes(id) && c.of.includes('C1'));
      // 12 between axes, less 4.5 and 20.
      expect(web?.value).toBeCloseTo(12 - 4.5 - 20, 9);
      expect(plate.checks.filter((c) => !Number.isFinite(c.value))).toEqual([]);
      expect(Number.isFinite(plate.outline.mass)).toBe(true);
    }
  });
});

describe('mass', () => {
  test('by hand: disc less bore, recesses, counterbored and tapped holes', () => {
    const plate = plateOf(soundBench());
    const disc = Math.PI * (97.5 + 5 + 12) ** 2 * 20;
    const bore = Math.PI * 20 ** 2 * 20;
    const recesses = 2 * Math.PI * ((60.05 / 2) ** 2 - 20 ** 2) * 3;
    const studs = 5 * Math.PI * (4.5 ** 2 * 11 + 10.25 ** 2 * 9);
    const tapped = 4 * Math.PI * 5 ** 2 * 20; // threads counted at their major diameter
    expect(plate.outline.mass).toBeCloseTo(((disc - bore - recesses - studs - tapped) * 2700) / 1e9, 9);
    expect(plate.outline.blank).toEqual({ width: 229, height: 229, thickness: 20 });
  });
});

describe('a pocket only where the plate lies', () => {
  const part = (x: number) => ({
    spots: { ...ring(4, 60, 0, stud), B: { kind: 'boss' as const, d: 20, height: 5, at: { x, y: 0 } } },
  });
  test('a boss beside the plate needs none, and does not make the plate larger', () => {
    const plate = plateOf(bench(part(120), { spots: {} }));
    expect(plate.bores).toEqual([]);
    expect(plate.outline.area).toBeCloseTo(
      plateOf(bench({ spots: ring(4, 60, 0, stud) }, { spots: {} })).outline.area,
      9,
    );
    expect(plate.checks.some((c) => c.rule.startsWith('clear'))).toBe(false);
  });
  test('one that the outline would cut through is taken in with its margin', () => {
    const plate = plateOf(bench(part(84), { spots: {} }));
    expect(plate.bores.map((b) => [b.id, b.kind])).toEqual([['C1', 'relief']]);
    expect(plate.checks.filter((c) => !c.ok && c.of.includes('C1'))).toEqual([]);
  });
});
