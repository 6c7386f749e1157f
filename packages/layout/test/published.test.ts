import { distance, randomFrom } from '@fayplate/core';
import { describe, expect, test } from 'vitest';
import { INCH, clockwise, layoutOf, named, onDivisions, ringReadings, shopOf } from './support/scenes.js';

const every = (n: number): readonly number[] => Array.from({ length: n }, (_, k) => k);
const chosenOf = (layout: ReturnType<typeof layoutOf>) => {
  const c = layout.candidates[layout.chosen ?? -1];
  if (c === undefined)
    throw new Error(
      `nothing chosen: ${layout.candidates[0]?.says ?? 'as measured'} ${layout.candidates[0]?.odds ?? 0}`,
    );
  return c;
};

// Chord over diameter for equal spacing, sin(180° / n): read in a workshop spacing table (four figures), and computed.
describe('equal divisions as the handbooks give them', () => {
  const printed = '3 .8660, 4 .7071, 5 .5878, 6 .5000, 7 .4339, 8 .3827, 9 .3420, 10 .3090, 11 .2817, 12 .2588';
  test.each(printed.split(', ').map((row) => row.split(' ').map(Number) as [number, number]))(
    '%d holes: chord %d of the diameter',
    (n, chord) => {
      const made = shopOf(named(onDivisions(8 * INCH, n, every(n))), ringReadings(n, 0.004, 2));
      const c = chosenOf(layoutOf(made, randomFrom(n)));
      expect(c.circles[0]?.divisions).toBe(n);
      expect(c.circles[0]?.size).toBe('8 in');
      const [a, b] = [c.features.get('P1'), c.features.get('P2')];
      if (a === undefined || b === undefined) throw new Error('no positions');
      expect(distance(a, b) / (8 * INCH)).toBeCloseTo(chord, 4);
    },
  );

  // Coordinates on a circle of diameter 1, first hole at the top: computed; the layout of such tables was read, their
  // figures were not.
  test.each([
    [
      3,
      [
        [0, 0.5],
        [0.43301, -0.25],
        [-0.43301, -0.25],
      ],
    ],
    [
      5,
      [
        [0, 0.5],
        [0.47553, 0.15451],
        [0.29389, -0.40451],
        [-0.29389, -0.40451],
        [-0.47553, 0.15451],
      ],
    ],
    [
      7,
      [
        [0, 0.5],
        [0.39092, 0.31174],
        [0.48746, -0.11126],
        [0.21694, -0.45048],
        [-0.21694, -0.45048],
        [-0.48746, -0.11126],
        [-0.39092, 0.31174],
      ],
    ],
    [
      9,
      [
        [0, 0.5],
        [0.32139, 0.38302],
        [0.4924, 0.08682],
        [0.43301, -0.25],
        [0.17101, -0.46985],
      ],
    ],
  ] as const)('coordinates of %d divisions', (n, coordinates) => {
    const made = shopOf(named(onDivisions(100, n, every(n))), ringReadings(n, 0.004, 2));
    const c = chosenOf(layoutOf(made, randomFrom(n)));
    for (const [k, [x, y]] of coordinates.entries()) {
      expect((c.features.get(`P${k + 1}`)?.x ?? Number.NaN) / 100).toBeCloseTo(x, 4);
      expect((c.features.get(`P${k + 1}`)?.y ?? Number.NaN) / 100).toBeCloseTo(y, 4);
    }
  });

  // Common practice: twelve divisions are 30° apart.
  test('twelve divisions are 30° apart', () => {
    const made = shopOf(named(onDivisions(6 * INCH, 12, [0, 1, 4, 6, 9, 10])), ringReadings(6, 0.005, 2));
    const [circle] = chosenOf(layoutOf(made, randomFrom(1))).circles;
    expect(circle?.divisions).toBe(12);
    expect(circle?.occupied).toEqual([0, 1, 4, 6, 9, 10]);
  });

  // Common practice: old inch work falls on sixteenths and thirty-seconds, symmetrical about a centre line.
  test('sixteenths of an inch from the centre, symmetrical about the centre line, are found as such', () => {
    const half = [
      [23, 31],
      [41, 6],
      [29, -26],
    ].map(([x = 0, y = 0]) => ({ x: (x * INCH) / 16, y: (y * INCH) / 16 }));
    const points = [{ x: 0, y: (50 * INCH) / 16 }, ...half, ...half.map((p) => ({ x: -p.x, y: p.y }))];
    const ids = [...named(points).keys()];
    const made = shopOf(
      named(points),
      ids.flatMap((from, i) => ids.slice(i + 1).map((to) => ({ from, to, sigma: 0.03 }))),
    );
    const c = chosenOf(layoutOf(made, randomFrom(3)));
    expect(c.grid?.says).toBe('1/16 in');
    expect(c.grid?.from).toBe('spigot');
    expect(c.mirror?.axis).toBeCloseTo(Math.PI / 2, 6);
    expect(c.mirror?.said).toBe(false);
  });
});

// Bolt circles of pipe flanges, from memory: ASME B16.5 class 150, NPS 4, 6, 10 and 18; EN 1092-1 PN 16, DN 100, 200
// and 350. The holes stand astride the centre lines, so the first is off the vertical by half a division.
describe('published bolt circles are recognised from their readings alone', () => {
  test.each([
    [7.5 * INCH, 8, '7 1/2 in', 'in'],
    [9.5 * INCH, 8, '9 1/2 in', 'in'],
    [14.25 * INCH, 12, '14 1/4 in', 'in'],
    [22.75 * INCH, 16, '22 3/4 in', 'in'],
    [180, 8, '180 mm', 'mm'],
    [295, 12, '295 mm', 'mm'],
    [470, 16, '470 mm', 'mm'],
  ] as const)('%d mm with %d holes', (diameter, n, size, unit) => {
    const sigma = 0.02;
    const points = onDivisions(diameter, n, every(n), undefined, 180 / n);
    // Laid out off the vertical, measured with a dowel at 12 o'clock to say which way is up.
    const truth = new Map([...named(points), ['D', clockwise(50.123, 0)] as const]);
    const readings = [
      ...ringReadings(n, sigma, 2),
      { from: 'D', to: 'spigot', sigma },
      { from: 'D', to: 'P1', sigma },
      { from: 'D', to: `P${n}`, sigma },
    ];
    const made = { ...shopOf(truth, readings, (id) => (id === 'D' ? 'dowel' : 'hole')) };
    const layout = layoutOf(made, randomFrom(7));
    const [circle] = (layout.candidates[0] ?? { circles: [] }).circles;
    expect(circle?.divisions).toBe(n);
    expect(circle?.size).toBe(size);
    expect(circle?.features).toHaveLength(n);
    expect(layout.units[unit]).toBeGreaterThan(0.5);
    // Counted from P1, the first clockwise of the vertical by half a division.
    expect(new Set(circle?.occupied).size).toBe(n);
  });
});
