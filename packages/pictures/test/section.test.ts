import { circlePath, pathBox, speechFor } from '@fayplate/core';
import { captioned, textBox } from '@fayplate/drawing';
import type { Check, CheckId, Plate, PlateHole } from '@fayplate/plate';
import { describe, expect, test } from 'vitest';
import { failureWords } from '../src/feature.js';
import { sectionPicture } from '../src/index.js';
import { sectionProfile } from '../src/section-profile.js';
import { flat, letters, meetingTexts, outside, textsOf } from './support.js';

const plate = (side: 'A' | 'B', more: Partial<Plate> = {}): Plate => ({
  faces: ['pump', 'motor'],
  assembly: {
    order: ['pump', 'motor'],
    because: 'either',
    enters: new Map(),
    tightening: [],
    studs: [],
    seals: [],
  },
  thickness: 20,
  material: null,
  clocking: 0,
  holes: [],
  centres: [],
  bores: [
    {
      id: 'C1',
      kind: 'bore',
      feature: null,
      part: null,
      x: 0,
      y: 0,
      diameter: 40,
      limits: null,
      side: 'through',
      depth: null,
    },
    {
      id: 'C2',
      kind: 'spigot',
      feature: 'pump.bore',
      part: { face: 'pump', feature: 'bore' },
      x: 0,
      y: 0,
      diameter: 60,
      limits: null,
      side,
      depth: 3,
    },
  ],
  outline: {
    shape: 'round',
    path: circlePath({ x: 0, y: 0 }, 80),
    area: Math.PI * 6400,
    mass: null,
    blank: { width: 160, height: 160, thickness: 23 },
  },
  checks: [],
  bolts: [],
  goesOn: new Map(),
  clockings: null,
  turning: { range: { from: 0, to: 1 }, spans: [], best: null, plot: [] },
  alignment: null,
  unknowns: [],
  requirements: [],
  ok: true,
  ...more,
});

/** `pump.P1` as the two names that it is made of. */
const partNamed = (name: string | null): PlateHole['part'] => {
  const [face = '', feature = ''] = name?.split('.') ?? [];
  return name === null ? null : { face, feature };
};

const hole = (id: string, x: number, more: Partial<PlateHole>): PlateHole => ({
  id,
  feature: null,
  part: partNamed(more.feature ?? null),
  x,
  y: 0,
  as: 'clearance',
  diameter: 9,
  limits: null,
  from: 'B',
  depth: null,
  thread: null,
  sink: null,
  slot: null,
  fastening: null,
  fastener: null,
  drill: null,
  source: '',
  land: [0, 20],
  ...more,
});

const sunk = hole('H1', 60, { sink: { kind: 'counterbored', diameter: 20, depth: 18.5, side: 'A' } });
const blind = hole('H2', -60, {
  as: 'tapped',
  diameter: 8.5,
  depth: 15,
  thread: { name: 'M10', major: 10, pitch: 1.5, depth: 12 },
});
/** What the checks used here are called for people. */
const titles: Partial<Record<CheckId, string>> = {
  'counterbore-floor': 'floor under the counterbore',
  'web-between-cuts': 'web between cuts',
  'hole-to-edge': 'hole to edge',
  'dowel-count': 'locating the same thing',
};

const check = (id: CheckId, of: readonly string[], ok = false): Check => ({
  id,
  rule: titles[id] ?? id,
  of,
  value: 1.5,
  limit: 3,
  unit: 'mm',
  sense: 'least',
  ok,
  source: '',
  cures: [],
  at: { x: 60, y: 0 },
});

test.each([
  ['A', -3, 20],
  ['B', 0, 23],
] as const)('a bore through a spigot raised from side %s runs from %d to %d mm and no further', (side, low, high) => {
  const heights = sectionProfile(plate(side))
    .voids.flat()
    .map((p) => p.y);
  expect([Math.min(...heights), Math.max(...heights)]).toEqual([low, high]);
});

test('a bore beside a raised spigot ends at the plate’s own face', () => {
  const bores = plate('A').bores.map((b) => (b.id === 'C2' ? { ...b, x: 50, diameter: 20 } : b));
  expect(
    Math.min(
      ...sectionProfile(plate('A', { bores }))
        .voids.flat()
        .map((p) => p.y),
    ),
  ).toBe(0);
});

test('plate and spigot are one outline, without the line of the face between them', () => {
  const [one, ...more] = sectionProfile(plate('A')).outlines;
  expect(more).toEqual([]);
  const low = one?.filter((p) => p.y < 0).map((p) => p.x) ?? [];
  expect(low).toHaveLength(2);
  expect(Math.abs((low[0] ?? 0) - (low[1] ?? 0))).toBeCloseTo(60, 9);
});

test(
  'a counterbore is cut from its own side, a blind hole from the ' +
    'side it is drilled from, its thread no deeper than it is cut',
  () => {
    const p = sectionProfile(plate('A', { bores: [], holes: [sunk, blind] }));
    const over = (u: number): readonly (readonly [number, number])[] =>
      p.voids
        .filter((v) => v.some((q) => Math.sign(q.x) === Math.sign(u)))
        .map((v) => [Math.min(...v.map((q) => q.y)), Math.max(...v.map((q) => q.y))] as const);
    expect(over(60)).toEqual([
      [0, 20],
      [0, 18.5],
    ]);
    // From side B: 15 mm deep leaves 5, the drill's point goes on by half its diameter over tan 59°.
    expect(over(-60)[0]).toEqual([5, 20]);
    expect(over(-60)[1]?.[0]).toBeCloseTo(5 - 4.25 / Math.tan((59 * Math.PI) / 180), 9);
    expect(p.threads.map(([a, b]) => [Math.abs(a.x + 60), a.y, b.y])).toEqual([
      [5, 20, 8],
      [5, 20, 8],
    ]);
  },
);

test('a counterbore deeper than the plate ends at its other side', () => {
  const deep = hole('H1', 60, { sink: { kind: 'counterbored', diameter: 20, depth: 27, side: 'B' } });
  const heights = sectionProfile(plate('A', { bores: [], holes: [deep] }))
    .voids.flat()
    .map((p) => p.y);
  expect([Math.min(...heights), Math.max(...heights)]).toEqual([0, 20]);
});

test('a hole past the edge is not drawn where there is no plate', () => {
  const p = sectionProfile(plate('A', { bores: [], holes: [hole('H1', 78, {}), hole('H2', 95, {})] }));
  expect(Math.max(...p.voids.flat().map((q) => q.x))).toBeLessThanOrEqual(80.0001);
  expect(p.holes.map((h) => h.id)).toEqual(['H1']);
});

describe('names', () => {
  const drawn = (more: Partial<Plate>) =>
    captioned(sectionPicture(plate('A', { bores: [], ...more }), speechFor('mm'), letters), letters);
  test('no centre line runs through another hole’s name', () => {
    const drawing = drawn({ holes: [hole('H1', 60, {}), hole('H12', 57, { y: 4 }), hole('H13', 62, { y: -4 })] });
    const named = textsOf(drawing).filter((t) => /^H\d+$/.test(t.text));
    expect(named).toHaveLength(3);
    const through = flat(drawing.shapes)
      .flatMap((s) => (s.kind === 'path' ? [pathBox(s.path)] : []))
      .filter(
        (b) =>
          b.right - b.left < 1e-9 &&
          named.some((t) => {
            const box = textBox(t, letters);
            return (
              b.left > box.left &&
              b.left < box.right &&
              b.top > box.bottom + 0.4 * t.capital &&
              b.bottom < box.top - 0.4 * t.capital
            );
          }),
      );
    expect(through).toEqual([]);
    expect(meetingTexts(drawing)).toEqual([]);
  });
  test.each([2, 4, 6])('both sides are named apart beside a plate of %d mm', (thickness) => {
    const drawing = drawn({ thickness, holes: [hole('H1', 60, { land: [0, thickness] })] });
    expect(meetingTexts(drawing)).toEqual([]);
    expect(outside(drawing)).toEqual([]);
  });
});

test('the cut runs where a floor does not hold, else where it shows most', () => {
  const at = (id: string, x: number, y: number, more: Partial<PlateHole> = {}) => ({ ...hole(id, x, more), y });
  const holes = [
    at('H1', 60, 0),
    at('H2', -60, 0, { as: 'tapped' }),
    at('H3', 0, 60, { sink: { kind: 'counterbored', diameter: 20, depth: 18.5, side: 'A' } }),
  ];
  const cut = (checks: readonly Check[]): readonly string[] =>
    sectionProfile(plate('A', { bores: [], holes, checks })).holes.map((h) => h.id);
  expect(cut([])).toEqual(['H1', 'H2']);
  expect(cut([check('counterbore-floor', ['H3'])])).toEqual(['H3']);
  expect(cut([check('web-between-cuts', ['H3', 'H1'])])).toEqual(['H1', 'H2']);
});

describe('what does not hold', () => {
  const speech = speechFor('mm');
  const barsOf = (checks: readonly Check[]): number =>
    flat(
      captioned(sectionPicture(plate('A', { holes: [sunk, blind], checks }), speech, letters), letters).shapes,
    ).filter((s) => s.kind === 'path' && s.stroke?.width === 0.8).length;

  test('is marked in section where the floor is thin, and said', () => {
    const drawing = captioned(
      sectionPicture(
        plate('A', { holes: [sunk, blind], checks: [check('counterbore-floor', ['H1'])] }),
        speech,
        letters,
      ),
      letters,
    );
    expect(outside(drawing)).toEqual([]);
    expect(meetingTexts(drawing)).toEqual([]);
    expect(
      textsOf(drawing)
        .map((t) => t.text)
        .join(' '),
    ).toContain('what does not hold: floor under the counterbore (H1)');
    expect(barsOf([check('counterbore-floor', ['H1'])])).toBe(1);
  });
  test('is not marked where it holds, nor where the section does not show it', () => {
    expect(barsOf([check('counterbore-floor', ['H1'], true)])).toBe(0);
    expect(barsOf([check('counterbore-floor', ['H9'])])).toBe(0);
  });
  test('is said between two holes only where the rule is about two', () => {
    const p = plate('A', { holes: [sunk, blind] });
    expect(failureWords(p, [check('web-between-cuts', ['H1', 'H2']), check('hole-to-edge', ['H1', 'outline'])])).toBe(
      'web between cuts (H1 to H2); hole to edge (H1, outline)',
    );
    expect(failureWords(p, [check('dowel-count', ['H1', 'H2'])])).toBe('locating the same thing (H1, H2)');
  });
});

const sunkAt = hole('H3', 45, { sink: { kind: 'counterbored', diameter: 20, depth: 8, side: 'B' } });

describe('direction and sizes', () => {
  // Right in the section is right as seen from side B, whichever quarter the holes lie in.
  test.each([20, 80, 100, 160, 200, 260, 280, 340])('a hole at %d°', (degrees) => {
    const a = (degrees * Math.PI) / 180;
    const p = sectionProfile(plate('A', { bores: [], holes: [hole('H1', 50 * Math.cos(a), { y: 50 * Math.sin(a) })] }));
    expect(Math.cos(p.direction)).toBeGreaterThanOrEqual(0);
    const u = p.holes.find((h) => h.id === 'H1')?.u ?? Number.NaN;
    expect(u * Math.cos(a)).toBeGreaterThan(0);
  });

  test('each bore has its dimension with limits and depth, each hole its size under its name', () => {
    const drawing = captioned(
      sectionPicture(plate('B', { holes: [hole('H1', 60, {}), sunkAt] }), speechFor('mm'), letters),
      letters,
    );
    const words = textsOf(drawing).map((t) => t.text);
    // ISO 2768-1 m: 40 ± 0.3; ISO 286-2: h7 of 60 is −30 µm; twice 0.1 of a height of 3.
    expect(words).toContain('C1  ⌀39.700 to 40.300 through');
    expect(words).toContain('C2  ⌀59.970 to 60.000, 2.80 to 3.00 high');
    expect(words).toContain('cbore ⌀20.00 × 8.00');
    expect(meetingTexts(drawing)).toEqual([]);
    expect(outside(drawing)).toEqual([]);
    // The arrows of C2 stand over its edges, 30 mm to either side of the centre, above the spigot on side B.
    const upright = flat(drawing.shapes).flatMap((s) => (s.kind === 'path' ? [pathBox(s.path)] : []));
    const over = (x: number): boolean =>
      upright.some((b) => Math.abs(b.left - x) < 1e-9 && Math.abs(b.right - x) < 1e-9 && b.bottom > 23);
    expect([over(-30), over(30), over(25)]).toEqual([true, true, false]);
  });

  test('no extension line runs through words, however near a hole lies to a recess', () => {
    for (let u = 24; u <= 70; u += 2) {
      const drawing = captioned(
        sectionPicture(plate('B', { holes: [{ ...sunkAt, x: u }, hole('H2', -u, {})] }), speechFor('mm'), letters),
        letters,
      );
      const words = textsOf(drawing).map((t) => textBox(t, letters));
      const through = flat(drawing.shapes)
        .flatMap((s) => (s.kind === 'path' ? [pathBox(s.path)] : []))
        .filter(
          (b) =>
            b.right - b.left < 1e-9 &&
            words.some((w) => b.left > w.left && b.left < w.right && b.top > w.bottom + 0.3 && b.bottom < w.top - 0.3),
        );
      expect([u, through]).toEqual([u, []]);
      expect([u, meetingTexts(drawing)]).toEqual([u, []]);
    }
  });

  test('the sizes of what it shows stand below it, with their limits', () => {
    const notes = sectionPicture(plate('A', { holes: [hole('H1', 60, {})] }), speechFor('mm'), letters).notes.join(' ');
    expect(notes).toMatch(/H1: .*clearance/);
    // ISO 286-2: h7 of 60 is −30 µm; ISO 2768-1 m: 40 ± 0.3, twice 0.1 of a height of 3.
    expect(notes).toContain('C1: bore 39.700 to 40.300 mm, through');
    expect(notes).toContain('C2: raised spigot 59.970 to 60.000 mm, 2.80 to 3.00 high on side A');
  });
});
