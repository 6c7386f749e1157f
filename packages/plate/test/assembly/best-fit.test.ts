import { type Point, randomFrom } from '@fayplate/core';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Joint, bestFit } from '../../src/index.js';
import { bruteExcess } from './brute.js';
import { fastener, locator, moved, ring } from './support.js';

/** Pins displaced at random, some holes slotted. */
const scattered = (seed: number, n: number, radius: number, sigma: number, slot: boolean): readonly Joint[] => {
  const r = randomFrom(seed);
  return ring(n, radius)
    .map((p, i) => ({
      ...fastener(`P${i + 1}`, moved(p, 3 * r.normal(), 3 * r.normal()), 0.1 + 0.4 * r.uniform()),
      along: slot && i === 0 ? r.uniform() * Math.PI : null,
    }))
    .map((j) => ({ ...j, part: moved(j.plate, sigma * r.normal(), sigma * r.normal()) }));
};

/** Greatest excess of pins over their clearances at a motion. */
const excessAt = (joints: readonly Joint[], turn: number, shift: Point): number =>
  Math.max(
    ...joints.map((j) => {
      const vx = j.plate.x * Math.cos(turn) - j.plate.y * Math.sin(turn) + shift.x - j.part.x;
      const vy = j.plate.x * Math.sin(turn) + j.plate.y * Math.cos(turn) + shift.y - j.part.y;
      return (
        (j.along === null ? Math.hypot(vx, vy) : Math.abs(Math.cos(j.along) * vy - Math.sin(j.along) * vx)) -
        j.clearance[0]
      );
    }),
  );

describe('the best shift and turn', () => {
  test('is what brute force over every turn and shift finds', () => {
    for (let seed = 1; seed <= 14; seed += 1) {
      const joints = scattered(seed, 2 + (seed % 6), 20 + 15 * (seed % 5), 0.3, seed % 4 === 0);
      const found = bestFit(joints);
      expect([seed, Math.abs(-found.slack - bruteExcess(joints, 1.5, 0.08)) < 2e-6]).toEqual([seed, true]);
    }
  });

  test('the slack it states is there at the motion it states, and no small motion has more', () => {
    for (let seed = 1; seed <= 60; seed += 1) {
      const joints = scattered(seed, 1 + (seed % 16), 80, 0.2, false);
      const f = bestFit(joints);
      expect([seed, Math.abs(-excessAt(joints, f.turn, f.shift) - f.slack) < 1e-9]).toEqual([seed, true]);
      const r = randomFrom(seed);
      for (let k = 0; k < 200; k += 1) {
        const size = 10 ** (-5 * r.uniform());
        const other = -excessAt(
          joints,
          f.turn + (size * r.normal()) / 80,
          moved(f.shift, size * r.normal(), size * r.normal()),
        );
        expect(other).toBeLessThan(f.slack + 2e-7);
      }
    }
  });

  test('a plate only moved, however far, fits as at its nominal', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 1000 }), fc.double({ min: -3, max: 3, noNaN: true }), (seed, turn) => {
        const joints = scattered(seed, 5, 60, 0.1, false);
        const turned = joints.map((j) => ({
          ...j,
          part: moved(
            {
              x: Math.cos(turn) * j.part.x - Math.sin(turn) * j.part.y,
              y: Math.sin(turn) * j.part.x + Math.cos(turn) * j.part.y,
            },
            40,
            -17,
          ),
        }));
        expect(bestFit(turned).slack).toBeCloseTo(bestFit(joints).slack, 6);
      }),
      { seed: 20_261, numRuns: 40 },
    );
  });

  test('scale, mirror and order change nothing', () => {
    for (let seed = 1; seed <= 20; seed += 1) {
      const joints = scattered(seed, 6, 70, 0.2, false);
      const slack = bestFit(joints).slack;
      const k = 25.4;
      const scaled = joints.map((j) => ({
        ...j,
        plate: { x: k * j.plate.x, y: k * j.plate.y },
        part: { x: k * j.part.x, y: k * j.part.y },
        clearance: [k * j.clearance[0], k * j.clearance[1]] as const,
      }));
      expect(bestFit(scaled).slack / k).toBeCloseTo(slack, 6);
      expect(
        bestFit(
          joints.map((j) => ({ ...j, plate: { x: -j.plate.x, y: j.plate.y }, part: { x: -j.part.x, y: j.part.y } })),
        ).slack,
      ).toBeCloseTo(slack, 6);
      expect(bestFit(joints.toReversed()).slack).toBeCloseTo(slack, 6);
    }
  });

  test('one hole alone keeps all its clearance; two share the error in their distance', () => {
    expect(bestFit([fastener('A', { x: 5, y: 5 }, 0.2)]).slack).toBeCloseTo(0.2, 6);
    const two = [
      fastener('A', { x: -50, y: 0 }, 0.2),
      { ...fastener('B', { x: 50, y: 0 }, 0.3), part: { x: 50.4, y: 0 } },
    ];
    expect(bestFit(two).slack).toBeCloseTo((0.5 - 0.4) / 2, 6);
    expect(bestFit(two).tight).toEqual(expect.arrayContaining(['A', 'B']));
  });

  test('nothing at all to meet goes on', () => expect(bestFit([])).toMatchObject({ slack: Infinity, tight: [] }));
});

/** A register and, for every second seed, a dowel in a slot that points at it, out of place by a tenth or so. */
const pinsFor = (seed: number): readonly Joint[] => {
  const r = randomFrom(1000 + seed);
  const a = 6 * r.uniform();
  const second = { x: 40 * Math.cos(a), y: 40 * Math.sin(a) };
  const register = locator('R', { x: r.normal(), y: r.normal() }, 0.02 + 0.1 * r.uniform());
  const dowel = {
    ...locator('S', second, 0.02 + 0.05 * r.uniform()),
    part: moved(second, 0.1 * r.normal(), 0.1 * r.normal()),
    along: a,
  };
  return seed % 2 === 0 ? [register, dowel] : [register];
};

describe('locators', () => {
  test('kept, the best is what brute force finds', () => {
    for (let seed = 1; seed <= 8; seed += 1) {
      const joints = [...scattered(seed, 2 + (seed % 5), 60, 0.2, false), ...pinsFor(seed)];
      expect([seed, Math.abs(-bestFit(joints).slack - bruteExcess(joints, 1, 0.02)) < 2e-6]).toEqual([seed, true]);
    }
  });

  const holes = ring(4, 50);
  const register = locator('spigot', { x: 0, y: 0 }, 0.05);

  test('hold the plate: a shift of all fasteners is taken up only as far as the register lets it go', () => {
    const shifted = holes.map((p, i) => ({ ...fastener(`P${i + 1}`, p, 0.25), part: moved(p, 0.2, 0) }));
    expect(bestFit(shifted).slack).toBeCloseTo(0.25, 6);
    expect(bestFit([register, ...shifted]).slack).toBeCloseTo(0.25 - 0.15, 6);
    expect(bestFit([locator('spigot', { x: 0, y: 0 }, 0), ...shifted]).slack).toBeCloseTo(0.25 - 0.2, 5);
    expect(bestFit([locator('spigot', { x: 0, y: 0 }, -0.01), ...shifted]).slack).toBeCloseTo(0.25 - 0.2, 5);
  });

  test('are inside their holes at the motion stated, and no small motion that keeps them there has more slack', () => {
    for (let seed = 1; seed <= 40; seed += 1) {
      const r = randomFrom(seed);
      const fasteners = scattered(seed, 2 + (seed % 6), 60, 0.2, false);
      const pins = pinsFor(seed);
      const joints = [...fasteners, ...pins];
      const f = bestFit(joints);
      expect([seed, excessAt(pins, f.turn, f.shift) < 1e-7]).toEqual([seed, true]);
      expect([seed, Math.abs(-excessAt(fasteners, f.turn, f.shift) - f.slack) < 1e-9]).toEqual([seed, true]);
      for (let k = 0; k < 400; k += 1) {
        const size = 10 ** (-5 * r.uniform());
        const turn = f.turn + (size * r.normal()) / 60;
        const shift = moved(f.shift, size * r.normal(), size * r.normal());
        if (excessAt(pins, turn, shift) > 0) continue;
        expect(-excessAt(fasteners, turn, shift)).toBeLessThan(f.slack + 2e-7);
      }
    }
  });

  test('a register lets the plate turn; two dowels do not', () => {
    const turn = 0.002;
    const turned = holes.map((p, i) => ({
      ...fastener(`P${i + 1}`, p, 0.05),
      part: { x: Math.cos(turn) * p.x - Math.sin(turn) * p.y, y: Math.sin(turn) * p.x + Math.cos(turn) * p.y },
    }));
    expect(bestFit([register, ...turned]).slack).toBeCloseTo(0.05, 6);
    const dowels = [locator('D1', { x: -40, y: 0 }), { ...locator('D2', { x: 40, y: 0 }), along: 0 }];
    expect(bestFit([...dowels, ...turned]).slack).toBeCloseTo(0.05 - turn * 50, 4);
  });

  test('a slot takes up the error between two dowels that two round holes cannot', () => {
    const d1 = locator('D1', { x: -40, y: 0 }, 0.005);
    const d2 = { ...locator('D2', { x: 40, y: 0 }, 0.005), part: { x: 40.1, y: 0 } };
    expect(bestFit([d1, { ...d2, along: 0 }, fastener('A', { x: 0, y: 30 }, 0.3)]).slack).toBeCloseTo(0.3, 6);
    const jammed = bestFit([d1, d2, fastener('A', { x: 0, y: 30 }, 0.3)]);
    expect(jammed.slack).toBeCloseTo(-(0.1 - 0.01) / 2, 6);
    expect(jammed.tight).toEqual(expect.arrayContaining(['D1', 'D2']));
    expect(jammed.tight).not.toContain('A');
  });
});

/**
 * ASME Y14.5 formulas as worst case: floating H = F + T, fixed H = F + 2T, unequal H = F + T1 + T2 (textbook on
 * geometric tolerancing; forum quoting Y14.5-2009 appendix B). Here every part is held by exact locators, so no shift
 * or turn helps: with every feature at the edge of its zone and its hole at its least the fastener just goes in, and
 * with a hair more it does not.
 */
describe('floating and fixed fasteners at the worst', () => {
  const held = [locator('D1', { x: -80, y: 0 }), locator('D2', { x: 80, y: 0 })];
  const worst = (f: number, h: number, plateZone: number, partZone: number, holes: 1 | 2, hair: number): number => {
    const clearance = (holes * (h - f)) / 2;
    const joints = ring(6, 50).map((p, i) => {
      const a = (Math.PI * i) / 3 + 0.3;
      const out = (zone: number, sign: number): Point =>
        moved(p, (sign * (zone + hair) * Math.cos(a)) / 2, (sign * (zone + hair) * Math.sin(a)) / 2);
      return { ...fastener(`P${i + 1}`, p, clearance), plate: out(plateZone, 1), part: out(partZone, -1) };
    });
    return bestFit([...held, ...joints]).slack;
  };
  test.each([
    // F = 6 at most, H = 6.44 at least: floating T = 0.44 for each part, fixed T = 0.22 for each (worked in the
    // standard's appendix).
    ['floating', 6, 6.44, 0.44, 0.44, 2],
    ['fixed', 6, 6.44, 0.22, 0.22, 1],
    // F = 10, T = 0.5: floating 10.5, fixed 11.0.
    ['floating', 10, 10.5, 0.5, 0.5, 2],
    ['fixed', 10, 11, 0.5, 0.5, 1],
    ['fixed, unequal', 10, 11, 0.3, 0.7, 1],
  ] as const)('%s F %d H %d', (_, f, h, t1, t2, holes) => {
    expect(worst(f, h, t1, t2, holes, 0)).toBeCloseTo(0, 4);
    expect(worst(f, h, t1, t2, holes, 0.01)).toBeLessThan(-0.005);
    expect(worst(f, h, t1, t2, holes, -0.01)).toBeGreaterThan(0.005);
  });
});
