import { signedArea as pathArea } from '@fayplate/core';
import { describe, expect, test } from 'vitest';
import { plateFrom } from '../support/from-text.js';

const sides = (n: number): readonly (readonly [number, number])[] => [
  ...Array.from({ length: n }, (_, i) => [-60 + (120 * (i + 0.5)) / n, -50] as const),
  ...Array.from({ length: 9 }, (_, i) => {
    const t = -Math.PI / 2 + (Math.PI * (i + 0.5)) / 9;
    return [60 + 50 * Math.cos(t), 50 * Math.sin(t)] as const;
  }),
  ...Array.from({ length: n }, (_, i) => [60 - (120 * (i + 0.5)) / n, 50] as const),
  ...Array.from({ length: 9 }, (_, i) => {
    const t = Math.PI / 2 + (Math.PI * (i + 0.5)) / 9;
    return [-60 + 50 * Math.cos(t), 50 * Math.sin(t)] as const;
  }),
];

const text = (rim: string, margin: number): string => `
job: traced
units: mm
instruments: { readout: ± 0.02 }
faces:
  pump:
    centre: S
    up: N
    features:
      S: { kind: bore, diameter: 40 ± 0.01, deep: 8 }
      N: { kind: hole, diameter: 9 }
      E: { kind: hole, diameter: 9 }
    readings:
      - at S = (0, 0) by readout
      - at N = (0, 36) by readout
      - at E = (70, 0) by readout
    rim:
      - ${rim}
  motor:
    centre: S
    up: N
    features:
      S: { kind: bore, diameter: 40 ± 0.01, deep: 8 }
      N: { kind: hole, diameter: 9 }
    readings:
      - at S = (0, 0) by readout
      - at N = (0, 33) by readout
plate:
  between: [pump, motor]
  thickness: 20 mm
  clocking: 90 deg
  bore: { diameter: 30 }
  outline: { like: pump, margin: ${margin} mm }
`;

const rim = `trace ± 0.05 ${sides(6)
  .map(([x, y]) => `(${x.toFixed(4)}, ${y.toFixed(4)})`)
  .join(' ')}`;

describe('a rim from touched places alone', () => {
  test('two lines and two arcs, and what each rests on', () => {
    const { outline } = plateFrom(text(rim, 0));
    expect(outline.rests?.map((r) => `${r.along} ${r.points}`).toSorted()).toEqual([
      'arc 9',
      'arc 9',
      'line 6',
      'line 6',
    ]);
    for (const r of outline.rests ?? []) expect(r.departure).toBeLessThan(0.05);
    // Two straights of 120 mm and two half circles of 50 mm.
    expect(pathArea(outline.path)).toBeCloseTo(120 * 100 + Math.PI * 50 ** 2, 0);
  });

  test.each([5, -5])('moved by %d mm, exactly', (margin) => {
    const r = 50 + margin;
    expect(pathArea(plateFrom(text(rim, margin)).outline.path) / (120 * 2 * r + Math.PI * r ** 2)).toBeCloseTo(1, 4);
  });
});

test('a rim of corners alone, moved inward', () => {
  const corners = '(-60, -50)\n      - (60, -50)\n      - (60, 50)\n      - (-60, 50)';
  expect(pathArea(plateFrom(text(corners, -4)).outline.path)).toBeCloseTo(112 * 92, 6);
});
