import { type Point, randomFrom } from '@fayplate/core';
import { describe, expect, test } from 'vitest';
import { type Candidate, type FaceLayout, wholeDrawings } from '../src/index.js';
import { families, isTrue, shopFrom } from './support/families.js';
import {
  INCH,
  clockwise,
  everyDistance,
  layoutOf,
  named,
  onDivisions,
  ringReadings,
  shopOf,
  steps,
} from './support/scenes.js';

const points = (...xy: readonly (readonly [number, number])[]): readonly Point[] => xy.map(([x, y]) => ({ x, y }));
const six = onDivisions(7.5 * INCH, 6, [0, 1, 2, 3, 4, 5]);
const dowels = (id: string): 'dowel' | 'stud' => (id === 'P7' || id === 'P8' ? 'dowel' : 'stud');

const of = (
  truth: ReadonlyMap<string, Point>,
  seed: number,
  sigma = 0.02,
  kind?: (id: string) => 'dowel' | 'stud',
): FaceLayout => layoutOf(shopOf(truth, everyDistance([...truth.keys()], sigma), kind), randomFrom(seed));
const chosenOf = (l: FaceLayout): Candidate => {
  const c = l.candidates[l.chosen ?? -1];
  if (c === undefined)
    throw new Error(
      `nothing chosen; first ${l.candidates[0]?.says ?? '–'} ` +
        `(${l.candidates[0]?.odds ?? 0}), as measured ${l.asMeasured}`,
    );
  return c;
};

describe('hypotheses are composed', () => {
  test('studs on one circle, dowels midway on another: one layout', () => {
    const c = chosenOf(of(named([...six, clockwise(2.75 * INCH, 30), clockwise(2.75 * INCH, 210)]), 1, 0.01, dowels));
    expect(c.circles.map((k) => [k.divisions, k.size, k.turned])).toEqual([
      [6, '7 1/2 in', null],
      [2, '5 1/2 in', 'midway'],
    ]);
  });

  test('the same, the dowels turned freely', () => {
    const c = chosenOf(of(named([...six, clockwise(2.75 * INCH, 41), clockwise(2.75 * INCH, 221)]), 1, 0.01, dowels));
    expect(c.circles.map((k) => [k.divisions, k.turned])).toEqual([
      [6, null],
      [2, 'free'],
    ]);
    // The turn of the dowels is the one thing that is free, so their places are uncertain along the circle and not
    // across it.
    const p7 = c.pattern.ids.indexOf('P7');
    const [xx, yy] = [c.pattern.covariance[2 * p7]?.[2 * p7] ?? 0, c.pattern.covariance[2 * p7 + 1]?.[2 * p7 + 1] ?? 0];
    const p = c.pattern.points[p7] ?? { x: 0, y: 0 };
    const r = Math.hypot(p.x, p.y);
    const xy = c.pattern.covariance[2 * p7]?.[2 * p7 + 1] ?? 0;
    const out = (p.x / r) ** 2 * xx + (p.y / r) ** 2 * yy + 2 * ((p.x * p.y) / r ** 2) * xy;
    expect(out).toBeLessThan(1e-9);
    expect(xx + yy).toBeGreaterThan(1e-5);
  });

  test('dowels off any rule stay where they are measured, with their own uncertainty', () => {
    const c = chosenOf(of(named([...six, { x: 41.3, y: 22.2 }, { x: -37.7, y: -44.4 }]), 2, 0.02, dowels));
    expect(c.circles.map((k) => k.divisions)).toEqual([6]);
    expect(c.asMeasured).toEqual(['P7', 'P8']);
    expect(Math.hypot(c.features.get('P7')?.shift ?? 9, 0)).toBeLessThan(0.03);
  });

  test('dowels at round coordinates from the spigot', () => {
    const c = chosenOf(
      of(named([...six, { x: 1.5 * INCH, y: 2.25 * INCH }, { x: -1.5 * INCH, y: -1.75 * INCH }]), 3, 0.02, dowels),
    );
    expect(c.grid?.features).toEqual(['P7', 'P8']);
  });

  test('a circle in millimetres, dowels midway on one in inches: each in its own unit', () => {
    const c = chosenOf(
      of(
        named([
          ...onDivisions(160, 8, [0, 1, 2, 3, 4, 5, 6, 7]),
          ...onDivisions(5.5 * INCH, 2, [0, 1], undefined, 22.5),
        ]),
        1,
        0.01,
        (id) => (id === 'P9' || id === 'P10' ? 'dowel' : 'stud'),
      ),
    );
    expect(c.circles.map((k) => [k.divisions, k.size, k.turned])).toEqual([
      [8, '160 mm', null],
      [2, '5 1/2 in', 'midway'],
    ]);
  });

  test.each([
    [
      'far apart',
      [
        [79.375, 61.9125],
        [61.9125, -28.575],
        [74.6125, 23.8125],
      ],
      '1/16 in',
      175,
    ],
    [
      'where a few fall on a grid turned by 3, 4, 5 too',
      [
        [51, -68],
        [14, -28],
        [19, -57],
        [-42, 11],
        [22, 30],
        [61, -63],
      ],
      '1 mm',
      118,
    ],
  ] as const)('coordinates %s: all of them on one grid', (_name, xy, says, seed) => {
    const right = points(...xy);
    const c = chosenOf(
      of(named(xy.length === 3 ? [...right, ...right.map((p) => ({ x: -p.x, y: p.y }))] : right), seed, 0.025),
    );
    expect(c.grid?.says).toBe(says);
    expect(c.grid?.features).toHaveLength(6);
  });

  test('a row that points away from the spigot, known well along and badly across', () => {
    const [c] = wholeDrawings(
      of(named([0, 1, 2, 3, 4, 5].map((i) => ({ x: -58.3 - 31.5 * i, y: 42.3 + 21.44 * i }))), 5, 0.08),
    );
    expect([c?.arrays[0]?.columns, c?.arrays[0]?.rows, c?.arrays[0]?.features.length]).toEqual([6, 1, 6]);
  });

  test('a circle about its own centre, not the spigot', () => {
    const c = chosenOf(of(named(onDivisions(7.5 * INCH, 8, [0, 1, 2, 3, 4, 5, 6, 7], { x: 3.7, y: -3.8 })), 4));
    expect(c.circles[0]?.about).toBeNull();
    expect(c.circles[0]?.divisions).toBe(8);
    expect(Math.hypot(c.circles[0]?.centre.x ?? 0, c.circles[0]?.centre.y ?? 0)).toBeCloseTo(Math.hypot(3.7, 3.8), 1);
  });

  test('without a spigot', () => {
    const truth = named(onDivisions(160, 8, [0, 1, 2, 4, 5, 7], { x: 10, y: 5 }), null);
    const c = chosenOf(layoutOf(shopOf(truth, everyDistance([...truth.keys()], 0.01)), randomFrom(5)));
    expect([c.circles[0]?.divisions, c.circles[0]?.size, c.circles[0]?.about]).toEqual([8, '160 mm', null]);
    expect(c.features.get('P1')).toMatchObject({ x: 0, y: 0 });
  });

  test.each([
    ['a rectangle', points([38.1, 25.4], [-38.1, 25.4], [-38.1, -25.4], [38.1, -25.4]), 2, 2, ['3 in', '2 in']],
    ['three by two', [-1, 0, 1].flatMap((i) => points([55 * i, 30], [55 * i, -30])), 3, 2, ['55 mm', '60 mm']],
    ['a row', [-2, -1, 0, 1, 2].flatMap((i) => points([26 * i, 33.3])), 5, 1, ['26 mm', null]],
  ] as const)('%s', (_name, places, columns, rows, size) => {
    const [a] = chosenOf(of(named(places), 7, 0.006)).arrays;
    expect([Math.max(a?.columns ?? 0, a?.rows ?? 0), Math.min(a?.columns ?? 0, a?.rows ?? 0)]).toEqual([
      Math.max(columns, rows),
      Math.min(columns, rows),
    ]);
    expect([...(a?.size ?? [])].map(String).sort((x, y) => x.localeCompare(y))).toEqual(
      size.map(String).sort((x, y) => x.localeCompare(y)),
    );
  });

  test('a rectangle that is set off from the spigot: by how much along and across', () => {
    const c = chosenOf(
      of(named(points([-38.1, 28.575], [60.325, 28.575], [60.325, -22.225], [-38.1, -22.225])), 6, 0.01),
    );
    const [a] = c.arrays;
    expect([...(a?.size ?? [])].map(String).sort((x, y) => x.localeCompare(y))).toEqual(['2 in', '3 7/8 in']);
    // Its middle, worked out by hand: 7/16 in and 1/8 in from the spigot.
    expect([...(a?.offset?.size ?? [])].map(String).sort((x, y) => x.localeCompare(y))).toEqual(['1/8 in', '7/16 in']);
    expect(Math.hypot(a?.centre.x ?? 0, a?.centre.y ?? 0)).toBeCloseTo(Math.hypot(11.1125, 3.175), 6);
    const corners = ['P1', 'P2', 'P3', 'P4'].map((id) => c.features.get(id) ?? { x: 0, y: 0 });
    expect(corners.reduce((s, p) => s + p.x / 4, 0)).toBeCloseTo(a?.centre.x ?? 0, 6);
    expect(corners.reduce((s, p) => s + p.y / 4, 0)).toBeCloseTo(a?.centre.y ?? 0, 6);
  });

  /** Mean odds over ten measurements of the candidates that say so. */
  const meanOdds = (
    truth: ReadonlyMap<string, Point>,
    sigma: number,
    says: (c: Candidate) => boolean,
    kind?: (id: string) => 'dowel' | 'stud',
  ): number =>
    Array.from({ length: 10 }, (_, k) =>
      wholeDrawings(of(truth, 40 + k, sigma, kind)).reduce((s, c) => s + (says(c) ? c.odds : 0), 0),
    ).reduce((a, b) => a + b, 0) / 10;

  test('dowels on either side of the centre line of a circle, one size in each unit', () => {
    const truth = named([...six, { x: -65, y: 36.5125 }, { x: 65, y: 36.5125 }]);
    const says = (c: Candidate): boolean =>
      c.circles[0]?.size === '7 1/2 in' &&
      c.mirror?.pair?.size.apart === '130 mm' &&
      c.mirror.pair.size.along === '1 7/16 in' &&
      Math.abs(c.mirror.axis - Math.PI / 2) < 1e-9;
    expect(meanOdds(truth, 0.006, says, dowels)).toBeGreaterThan(0.8);
  });

  test('four holes at the corners of a square of a round side, not on a circle of no round diameter', () => {
    const square = named(points([28.575, 28.575], [-28.575, 28.575], [-28.575, -28.575], [28.575, -28.575]));
    expect(meanOdds(square, 0.006, (c) => c.arrays[0]?.size.every((s) => s === '2 1/4 in') === true)).toBeGreaterThan(
      0.9,
    );
    const circle = named(onDivisions(3.25 * INCH, 4, [0, 1, 2, 3]));
    expect(meanOdds(circle, 0.006, (c) => c.circles[0]?.size === '3 1/4 in')).toBeGreaterThan(0.9);
  });

  test.each([
    ['first', [3, 0, 1, 2, 4]],
    ['last', [0, 1, 2, 4, 3]],
  ] as const)('coordinates without a spigot, a hole off them listed %s: from one of their own', (_name, order) => {
    const places = points([0, 0], [63.5, 0], [63.5, 44.45], [33.11, 61.37], [0, 79.375]);
    const truth = named(
      order.map((k) => places[k] ?? { x: 0, y: 0 }),
      null,
    );
    const c = chosenOf(layoutOf(shopOf(truth, everyDistance([...truth.keys()], 0.02)), randomFrom(5)));
    const odd = `P${order.indexOf(3) + 1}`;
    expect(c.grid?.says).toBe('1/8 in');
    expect(c.asMeasured).toEqual([odd]);
    expect(new Set([c.grid?.from, ...(c.grid?.features ?? []), odd]).size).toBe(5);
  });

  test('symmetry about a line, and about a point', () => {
    const half = points([40, 33.3], [61.7, -20.2], [23.4, -55.1]);
    const line = chosenOf(of(named([{ x: 0, y: 70.7 }, ...half, ...half.map((p) => ({ x: -p.x, y: p.y }))]), 7));
    expect(line.mirror?.said).toBe(true);
    expect(line.mirror?.axis).toBeCloseTo(Math.PI / 2, 2);
    const point = chosenOf(of(named([...half, ...half.map((p) => ({ x: -p.x, y: -p.y }))]), 8));
    expect(point.opposite).toHaveLength(6);
  });

  test('one hole off its place: the rest is the layout, and that hole stays', () => {
    const places = onDivisions(7.5 * INCH, 8, [0, 1, 2, 3, 4, 5, 6, 7]).map((p, i) =>
      i === 3 ? { x: p.x + 0.6, y: p.y } : p,
    );
    const c = chosenOf(of(named(places), 9));
    expect(c.asMeasured).toEqual(['P4']);
    expect([c.circles[0]?.divisions, c.circles[0]?.features.length]).toEqual([8, 7]);
    expect(c.moved?.feature).toBe('P4');
    expect(Math.abs((c.moved?.by ?? 0) - 0.6)).toBeLessThan(0.06);
  });

  test.each([
    ['about the spigot', { x: 0, y: 0 }],
    ['without one', null],
  ] as const)('a rectangle %s with one corner off: no fine grid through the other three', (_name, spigot) => {
    for (const [k, by] of [0.2, 0.3, 0.4, 0.5].entries()) {
      const places = points([38.1, 25.4], [-38.1, 25.4], [-38.1, -25.4], [38.1 + by, -25.4]);
      const l = of(named(places, spigot), 60 + k, 0.02);
      expect(l.candidates.every((c) => c.grid === null || c.odds < 0.5)).toBe(true);
      const c = chosenOf(l);
      expect(c.asMeasured).toEqual(['P4']);
      expect([c.arrays[0]?.columns, c.arrays[0]?.rows]).toEqual([2, 2]);
    }
  });

  test('a corner where it should be is not told as moved', () => {
    for (let k = 0; k < 4; k++) {
      const l = of(named(points([38.1, 25.4], [-38.1, 25.4], [-38.1, -25.4], [38.1, -25.4]), null), 70 + k, 0.02);
      expect(wholeDrawings(l)[0]?.moved).toBeNull();
    }
  });

  test('rough work is measured work: it is named, and not taken', () => {
    const random = randomFrom(10);
    const places = onDivisions(7.5 * INCH, 8, [0, 1, 2, 3, 4, 5, 6, 7]).map((p) => ({
      x: p.x + 0.3 * random.normal(),
      y: p.y + 0.3 * random.normal(),
    }));
    const l = of(named(places), 10);
    expect(l.chosen).toBeNull();
    expect(l.asMeasured).toBeGreaterThan(0.9);
    expect(l.rough?.says).toContain('8 studs equally divided');
    expect(l.rough?.miss).toBeGreaterThan(0.1);
  });

  test('five of ten that are every other one are five', () => {
    const c = chosenOf(of(named(onDivisions(160, 10, [0, 2, 4, 6, 8])), 11, 0.01));
    expect(c.circles[0]?.divisions).toBe(5);
  });

  test('fewer than two fasteners say nothing', () => {
    const l = of(named([{ x: 0, y: 50 }]), 1);
    expect([l.candidates, l.asMeasured, l.chosen]).toEqual([[], 1, null]);
  });
});

describe('honest in numbers: a small run of the bench, seeded', () => {
  // An ideal chooser, told that it is eight holes about the spigot, gets .950, .832 and .724 of the diameters right.
  test.each([
    [0.025, 0.95],
    [0.1, 0.832],
    [0.2, 0.724],
  ])('σ %d mm: about %d of the diameters right, and what is chosen is right', (sigma, ideal) => {
    const random = randomFrom(100);
    const runs = 100;
    let right = 0;
    let chosen = 0;
    let wrong = 0;
    for (let k = 0; k < runs; k++) {
      const step = steps[random.below(7)] ?? null;
      const d = step === null ? 100 + 150 * random.uniform() : step * Math.round((100 + 150 * random.uniform()) / step);
      const made = shopOf(named(onDivisions(d, 8, [0, 1, 2, 3, 4, 5, 6, 7])), ringReadings(8, sigma));
      const l = layoutOf(made, random);
      const [circle] = wholeDrawings(l)[0]?.circles ?? [];
      const ok =
        circle?.divisions === 8 &&
        (step === null ? circle.size === null : circle.size !== null && Math.abs(circle.diameter - d) < 1e-6);
      if (ok) right++;
      if (l.chosen !== null) {
        chosen++;
        if (!isTrue(l.candidates[l.chosen], made)) wrong++;
      }
    }
    // Equal divisions are sure here even where the size is not.
    expect(chosen).toBeGreaterThan(0.9 * runs);
    // Four standard errors of a share of 100.
    expect(Math.abs(right / runs - ideal)).toBeLessThan(4 * Math.sqrt((ideal * (1 - ideal)) / runs));
    expect(wrong).toBeLessThanOrEqual(0.05 * chosen);
  });

  test('divisions with vacancies, readings of a twentieth of the spacing', () => {
    const random = randomFrom(101);
    const runs = 40;
    let right = 0;
    for (let k = 0; k < runs; k++) {
      const n = 6 + random.below(13);
      const all = Array.from({ length: n }, (_, i) => i);
      while (all.length > Math.max(4, Math.ceil(n / 2))) all.splice(1 + random.below(all.length - 1), 1);
      const spacing = 190.5 * Math.sin(Math.PI / n);
      const l = layoutOf(shopOf(named(onDivisions(190.5, n, all)), ringReadings(all.length, spacing / 20)), random);
      const [circle] = wholeDrawings(l)[0]?.circles ?? [];
      const common = all.reduce(
        (g, o) =>
          (function gcd(a: number, b: number): number {
            return b === 0 ? a : gcd(b, a % b);
          })(g, o),
        n,
      );
      if (circle?.divisions === n / common && circle.features.length === all.length) right++;
    }
    expect(right).toBeGreaterThanOrEqual(runs - 2);
  });

  test('layouts of several parts, rectangles, rows and coordinates: what is chosen is true', () => {
    let [chosen, wrong, first] = [0, 0, 0];
    const runs = 6;
    for (const [row, family] of families.entries()) {
      const random = randomFrom(300 + row);
      for (let k = 0; k < runs; k++) {
        const made = shopFrom(family, random);
        const l = layoutOf(made, random);
        const right = isTrue(wholeDrawings(l)[0], made);
        if (right) first++;
        // A hair off is not true, where nothing is free.
        const [c] = wholeDrawings(l);
        if (right && c?.pattern.covariance.flat().every((v) => Math.abs(v) < 1e-9) === true)
          expect(
            isTrue(
              { ...c, pattern: { ...c.pattern, points: c.pattern.points.map((q) => ({ x: q.x + 0.001, y: q.y })) } },
              made,
            ),
          ).toBe(false);
        if (l.chosen !== null) chosen++;
        if (l.chosen !== null && !isTrue(l.candidates[l.chosen], made)) wrong++;
      }
    }
    expect(first).toBeGreaterThan(0.75 * runs * families.length);
    expect(chosen).toBeGreaterThan(0.6 * runs * families.length);
    // One in twenty may be, and four standard errors more.
    expect(wrong).toBeLessThanOrEqual(0.05 * chosen + 4 * Math.sqrt(0.05 * chosen));
  });

  test('one hole off by six standard uncertainties and more: never called regular, mostly told as moved', () => {
    const random = randomFrom(104);
    let [taken, told] = [0, 0];
    const runs = 24;
    for (let k = 0; k < runs; k++) {
      const by = 0.02 * (6 + 14 * random.uniform());
      const turn = 2 * Math.PI * random.uniform();
      const places = onDivisions(7.5 * INCH, 8, [0, 1, 2, 3, 4, 5, 6, 7]).map((p, i) =>
        i === 3 ? { x: p.x + by * Math.cos(turn), y: p.y + by * Math.sin(turn) } : p,
      );
      const made = shopOf(named(places), ringReadings(8, 0.02, 2));
      const l = layoutOf(made, random);
      const c = l.candidates[l.chosen ?? -1];
      if (c === undefined) continue;
      taken++;
      expect(isTrue(c, made)).toBe(true);
      expect(c.asMeasured).toContain('P4');
      if (wholeDrawings(l)[0]?.moved?.feature === 'P4') told++;
      // A hole is never farther from the place taken than what is printed beside it.
      for (const [id, f] of c.features) {
        const truth = made.points[made.ids.indexOf(id)] ?? { x: 0, y: 0 };
        expect(Math.hypot(f.x - truth.x, f.y - truth.y)).toBeLessThan(1.6 * f.plusMinus);
      }
    }
    expect(taken).toBeGreaterThanOrEqual(0.8 * runs);
    expect(told).toBeGreaterThanOrEqual(0.8 * taken);
  });

  test('patterns that fit nothing are not snapped', () => {
    const random = randomFrom(102);
    for (let k = 0; k < 25; k++) {
      const truth = named(
        Array.from({ length: 7 }, () => clockwise(30 + 90 * Math.sqrt(random.uniform()), 360 * random.uniform())),
      );
      expect(layoutOf(shopOf(truth, everyDistance([...truth.keys()], 0.05)), random).chosen).toBeNull();
    }
  });
});
