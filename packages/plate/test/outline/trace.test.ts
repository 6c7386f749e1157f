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

describe('fillets between the pieces of a rim', () => {
  const listed = (...pieces: readonly string[]): string => pieces.join('\n      - ');
  const oblong = [
    'line (-50, -40) (50, -40)',
    'line (70, -30) (70, 30)',
    'line (50, 40) (-50, 40)',
    'line (-70, 30) (-70, -30)',
  ];
  const area = (pieces: readonly string[], margin = 0): number =>
    pathArea(plateFrom(text(listed(...pieces), margin)).outline.path);

  test('square corners lose (1 − π/4) r² each', () => {
    const rounded = oblong.flatMap((l) => [l, 'fillet 8 mm']);
    expect(area(oblong)).toBeCloseTo(140 * 80, 6);
    expect(area(rounded)).toBeCloseTo(140 * 80 - 4 * (1 - Math.PI / 4) * 64, 6);
    // The other way round, and from another corner, it is the same.
    const backward = rounded.toReversed().map((l) => {
      const [first = '', second = ''] = l.startsWith('line') ? l.slice(5).split(/(?<=\)) /) : [];
      return first === '' ? l : `line ${second} ${first}`;
    });
    expect(area(backward)).toBeCloseTo(140 * 80 - 4 * (1 - Math.PI / 4) * 64, 6);
    expect(area([...rounded.slice(1), ...rounded.slice(0, 1)])).toBeCloseTo(140 * 80 - 4 * (1 - Math.PI / 4) * 64, 6);
    // Moved outward the radius grows by the margin.
    expect(area(rounded, 5)).toBeCloseTo(150 * 90 - 4 * (1 - Math.PI / 4) * 169, 4);
  });

  test('in a hollow it adds metal', () => {
    const notched = [
      'line (-50, -40) (50, -40)',
      'line (70, -30) (70, 30)',
      'line (65, 40) (45, 40)',
      'line (40, 38) (40, 32)',
      'line (30, 30) (-30, 30)',
      'line (-40, 32) (-40, 38)',
      'line (-45, 40) (-65, 40)',
      'line (-70, 30) (-70, -30)',
    ];
    const filled = notched.flatMap((l, i) => (i === 3 || i === 4 ? [l, 'fillet 4 mm'] : [l]));
    expect(area(notched)).toBeCloseTo(140 * 80 - 800, 6);
    expect(area(filled)).toBeCloseTo(140 * 80 - 800 + 2 * (1 - Math.PI / 4) * 16, 6);
  });

  test('a line and an arc: it touches both', () => {
    const pieces = [
      'line (-50, -40) (50, -40)',
      'fillet 6 mm',
      'arc (68.007, -20) (71.414, 0) (68.007, 20)',
      'line (50, 40) (-50, 40)',
      'line (-70, 30) (-70, -30)',
    ];
    const { path } = plateFrom(text(listed(...pieces), 0)).outline;
    const arcs = path.edges.filter((e) => e.kind === 'arc');
    expect(arcs).toHaveLength(2);
    const radii = path.edges.flatMap((e) =>
      e.kind === 'arc' ? [Math.hypot(e.to.x - e.centre.x, e.to.y - e.centre.y)] : [],
    );
    expect(radii.toSorted((a, b) => a - b)[0]).toBeCloseTo(6, 6);
  });

  test.each([
    [['(-60, -50)', 'fillet 8 mm', '(60, -50)', '(60, 50)'], /a fillet between two of arc, line, round and trace/],
    [[...oblong, 'fillet 0 mm'], /a radius above zero/],
  ])('refused: %s', (pieces, expected) => expect(() => plateFrom(text(listed(...pieces), 0))).toThrow(expected));

  test('one that has no room makes no outline', () =>
    expect(() => plateFrom(text(listed(...oblong.flatMap((l) => [l, 'fillet 60 mm'])), 0))).toThrow(/closed outline/));
});
