import { describe, expect, test } from 'vitest';
import fc from 'fast-check';
import { carry } from '../../src/geometry/affine.js';
import { type PrinterReadings, printerProfile, profileFaults } from '../../src/index.js';
import { correctionFor, printedBy, remainingError } from '../../src/printer/profile.js';

const readings: PrinterReadings = {
  name: 'workshop laser',
  wide: { nominal: 170, measured: 169.2 },
  high: { nominal: 250, measured: 250.6 },
  diagonals: null,
  plusMinus: 0.2,
  date: '2024-03-01',
  paper: 'A4',
};

const scales = fc.record({
  wide: fc.double({ min: 0.971, max: 1.029, noNaN: true }),
  high: fc.double({ min: 0.971, max: 1.029, noNaN: true }),
  skew: fc.double({ min: -0.02, max: 0.02, noNaN: true }),
});

describe('a printer profile', () => {
  test('scale from rulers: printed over nominal, with its ±', () => {
    const out = printerProfile(readings);
    expect(out).toMatchObject({
      ok: true,
      profile: {
        wide: 169.2 / 170,
        high: 250.6 / 250,
        skew: 0,
        plusMinus: { wide: 0.2 / 170, high: 0.2 / 250, skew: null },
      },
    });
  });

  test('what the rulers and diagonals of a distorted sheet measure gives the distortion back', () => {
    fc.assert(
      fc.property(scales, (s) => {
        const print = printedBy(s);
        const length = (x: number, y: number): number => {
          const p = carry(print, { x, y });
          return Math.hypot(p.x, p.y);
        };
        const out = printerProfile({
          ...readings,
          wide: { nominal: 170, measured: length(170, 0) },
          high: { nominal: 250, measured: length(0, 250) },
          diagonals: { width: 150, height: 230, rising: length(150, 230), falling: length(150, -230) },
        });
        if (!out.ok) throw new Error(out.faults.join());
        expect(out.profile.wide).toBeCloseTo(s.wide, 10);
        expect(out.profile.high).toBeCloseTo(s.high, 10);
        expect(out.profile.skew).toBeCloseTo(s.skew, 9);
      }),
      { seed: 2, numRuns: 100 },
    );
  });

  test('an upright that leans to the right makes the rising diagonal the longer one', () => {
    const out = printerProfile({
      ...readings,
      wide: { nominal: 100, measured: 100 },
      high: { nominal: 100, measured: 100 },
      diagonals: { width: 100, height: 100, rising: 141.6, falling: 141.2 },
    });
    expect(out).toMatchObject({ ok: true });
    expect(out.ok && out.profile.skew).toBeGreaterThan(0);
  });

  test('a corrected page comes off that printer true', () => {
    fc.assert(
      fc.property(
        scales,
        fc.tuple(fc.double({ min: 0, max: 210, noNaN: true }), fc.double({ min: 0, max: 297, noNaN: true })),
        (s, [x, y]) => {
          const page = { width: 210, height: 297 };
          const correct = correctionFor(s, page);
          const print = printedBy(s);
          const off = (p: { x: number; y: number }) => carry(print, carry(correct, p));
          const a = off({ x: 105, y: 148.5 });
          const b = off({ x, y });
          expect(b.x - a.x).toBeCloseTo(x - 105, 8);
          expect(b.y - a.y).toBeCloseTo(y - 148.5, 8);
        },
      ),
      { seed: 4, numRuns: 100 },
    );
  });

  test('above 3 % is refused with advice, at 3 % it is not', () => {
    const at = (measured: number) => printerProfile({ ...readings, wide: { nominal: 100, measured } });
    expect(at(103).ok).toBe(true);
    const bad = at(94.1);
    expect(bad.ok ? [] : bad.faults).toEqual([expect.stringMatching(/5\.9 %.*100 %/)]);
    expect(printerProfile({ ...readings, wide: { nominal: 0, measured: 100 } }).ok).toBe(false);
    expect(printerProfile({ ...readings, plusMinus: Number.NaN }).ok).toBe(false);
    expect(
      profileFaults({
        name: 'x',
        wide: Number.NaN,
        high: 1,
        skew: 0,
        plusMinus: { wide: 0, high: 0, skew: null },
        date: '',
        paper: '',
      }),
    ).toHaveLength(1);
  });
});

describe('how far the farthest hole can still be off', () => {
  const holes = [
    { id: 'H1', at: { x: -100, y: 0 } },
    { id: 'H2', at: { x: 100, y: 0 } },
    { id: 'H3', at: { x: 0, y: 50 } },
  ];

  test('the scale’s ± times the distance from the middle of the holes', () => {
    const out = printerProfile(readings);
    if (!out.ok) throw new Error();
    const left = remainingError(holes, out.profile, { wide: 170, high: 250 }, { across: 0, up: 0 });
    expect(left.off).toBeCloseTo(Math.hypot((100 * 0.2) / 170, (25 * 0.2) / 250), 12);
    expect(left.hole).toBe('H1');
  });

  test('without a profile, the ± of checking the rulers; a join adds its own', () => {
    const one = remainingError(holes, null, { wide: 170, high: 250 }, { across: 0, up: 0 });
    const two = remainingError(holes, null, { wide: 170, high: 250 }, { across: 1, up: 0 });
    expect(one.off).toBeCloseTo(Math.hypot((100 * 0.25) / 170, (25 * 0.25) / 250), 12);
    expect(two.off).toBeCloseTo(Math.hypot(one.off, 0.2), 12);
    // Of three joins across and five up, two and three at most lie between the middle and a hole.
    const eight = remainingError(holes, null, { wide: 170, high: 250 }, { across: 3, up: 5 });
    expect(eight.off).toBeCloseTo(Math.hypot(one.off, 0.2 * Math.sqrt(2 + 3)), 12);
  });
});
