import { type Box, boxOf, circlePath, distance, pathBox, speechFor } from '@fayplate/core';
import { type Shape, growBox, shapesBox } from '@fayplate/drawing';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type DrilledPlate, drillTemplate } from '../../src/index.js';
import { dress } from '../../src/template/dress.js';
import { letters } from '../fonts.js';
import { options, outlined, pumpPlate } from '../plates.js';

const radius = 120;

/** Random plates: holes of all kinds anywhere on a round plate, none over another. */
const plates = fc
  .array(
    fc.record({
      r: fc.double({ min: 5, max: radius - 14, noNaN: true }),
      a: fc.double({ min: 0, max: 2 * Math.PI, noNaN: true }),
      diameter: fc.double({ min: 3, max: 18, noNaN: true }),
      sunk: fc.boolean(),
      blind: fc.boolean(),
    }),
    { minLength: 1, maxLength: 26 },
  )
  .map((all): DrilledPlate => {
    const holes: DrilledPlate['holes'][number][] = [];
    for (const h of all) {
      const at = { x: h.r * Math.cos(h.a), y: h.r * Math.sin(h.a) };
      const outer = h.diameter * (h.sunk ? 1 : 0.5);
      if (holes.some((o) => distance(o, at) < outer + Math.max(o.diameter, o.sink?.diameter ?? 0) / 2 + 3)) continue;
      holes.push({
        ...(pumpPlate.holes[0] as DrilledPlate['holes'][number]),
        ...at,
        id: `H${holes.length + 1}`,
        feature: `pump.P${holes.length + 1}`,
        diameter: h.diameter,
        drill: null,
        depth: h.blind ? 12 : null,
        from: h.blind ? 'A' : 'B',
        sink: h.sunk ? { kind: 'counterbored', diameter: 2 * h.diameter, depth: 6, side: 'B' } : null,
      });
    }
    return { ...pumpPlate, holes, bores: [], outline: outlined(circlePath({ x: 0, y: 0 }, radius)) };
  });

/** The room of every line of lettering, without the slack for accents: what ink can cover. */
const inkOf = (shapes: readonly Shape[]): readonly { readonly words: string; readonly box: Box }[] =>
  shapes.flatMap((s) => {
    if (s.kind === 'group') return inkOf(s.shapes);
    if (s.kind !== 'text') return [];
    const { glyphs, scale, width } = letters.lay(s.text, s.capital, s.weight);
    const from = s.anchor === 'start' ? 0 : s.anchor === 'middle' ? -width / 2 : -width;
    const points = glyphs.flatMap((g) =>
      letters
        .glyph(g.id, s.weight)
        .contours.flatMap((c) => [c.start, ...c.steps.map((p) => p.to)])
        .map((p) => ({ x: s.at.x + from + g.at + p.x * scale, y: s.at.y + p.y * scale })),
    );
    return [{ words: s.text, box: boxOf(points) }];
  });

/** Height of the capitals of every line of lettering. */
const inkSizes = (shapes: readonly Shape[]): ReadonlyMap<string, number> =>
  new Map(
    shapes.flatMap((s) =>
      s.kind === 'group' ? [...inkSizes(s.shapes)] : s.kind === 'text' ? [[s.text, s.capital] as const] : [],
    ),
  );

const meet = (a: Box, b: Box): boolean => a.left < b.right && b.left < a.right && a.bottom < b.top && b.bottom < a.top;
const onCircle = (b: Box, c: { readonly x: number; readonly y: number }, r: number): boolean =>
  Math.hypot(c.x - Math.min(b.right, Math.max(b.left, c.x)), c.y - Math.min(b.top, Math.max(b.bottom, c.y))) < r;

/** What lies on what, in words; from the ink itself, not from the boxes that the placing used. */
const clashes = (plate: DrilledPlate, shapes: readonly Shape[]): readonly string[] => {
  const ink = inkOf(shapes);
  return [
    ...ink.flatMap((a, i) => ink.slice(i + 1).flatMap((b) => (meet(a.box, b.box) ? [`${a.words} on ${b.words}`] : []))),
    ...ink.flatMap((a) =>
      plate.holes.flatMap((h) => {
        const outer = Math.max(h.diameter, h.sink?.diameter ?? 0) / 2;
        const arm = outer + 3;
        const cross =
          meet(a.box, { left: h.x - arm, right: h.x + arm, bottom: h.y - 0.12, top: h.y + 0.12 }) ||
          meet(a.box, { left: h.x - 0.12, right: h.x + 0.12, bottom: h.y - arm, top: h.y + arm });
        return onCircle(a.box, h, outer) || cross ? [`${a.words} on ${h.id}`] : [];
      }),
    ),
  ];
};

describe('lettering on random plates', () => {
  test('never lies on a hole, a cross-hair or other lettering, and names every hole', () => {
    fc.assert(
      fc.property(plates, (plate) => {
        const template = drillTemplate(plate, 'B', options.speech);
        const dressed = dress(template, letters, growBox(template.box, 60), { drawn: [], strips: [] });
        expect(dressed.unplaced).toEqual([]);
        expect(clashes(plate, dressed.shapes)).toEqual([]);
        const names = new Set(inkOf(dressed.shapes).map((i) => i.words.split(' ')[0]));
        for (const h of plate.holes) expect(names).toContain(h.id);
      }),
      { seed: 12, numRuns: 60 },
    );
  });

  test(
    'which side faces the eye is written smaller where there is little room, never below reading size, and left out ' +
      'only where there is none',
    () => {
      const template = drillTemplate(pumpPlate, 'B', options.speech);
      const sizes = [200, 20, 8, 0].map((free) => {
        const within = { ...template.box, top: template.box.top + free };
        // All but a strip over the plate is taken.
        const taken = { kind: 'box', box: template.box } as const;
        const dressed = dress({ ...template, labels: [] }, letters, within, { drawn: [taken], strips: [] });
        return inkSizes(dressed.shapes).get('Side B faces you') ?? null;
      });
      expect(sizes[0]).toBe(5);
      expect(sizes[1]).toBeLessThan(5);
      expect(sizes[1]).toBeGreaterThanOrEqual(2);
      expect(sizes.slice(2)).toEqual([null, null]);
    },
  );

  test('what is cut with straight sides is named in full, and drawn in its own shape for the key sheet', () => {
    const pocket: DrilledPlate['bores'][number] = {
      ...(pumpPlate.bores[1] as DrilledPlate['bores'][number]),
      id: 'C4',
      feature: null,
      part: null,
      x: 66,
      y: 8,
      diameter: 14,
      depth: 7,
      box: { length: 36, width: 14, corner: 4, angle: Math.PI / 2, behind: 18 },
      cut: { name: 'drive key', face: 'pump', why: null },
    };
    const plate: DrilledPlate = { ...pumpPlate, holes: [], bores: [...pumpPlate.bores, pocket] };
    const template = drillTemplate(plate, 'B', options.speech);
    const dressed = dress(template, letters, growBox(template.box, 60), { drawn: [], strips: [] });
    const words = inkOf(dressed.shapes).map((i) => i.words.trim());
    expect(words.filter((w) => w.endsWith('…'))).toEqual([]);
    expect(words.find((w) => w.startsWith('C4'))).toBe('C4  pocket (drive key)');
    expect(words).toContain('36 × 14, corners 4');
    const label = template.labels.find((l) => l.id === 'C4');
    // 36 long upright, 14 wide, about (66, 8): ends at 66 ± 7 and 8 ± 18.
    const edge = label?.edge === undefined ? null : pathBox(label.edge);
    expect([edge?.left, edge?.right, edge?.bottom, edge?.top].map((v) => v?.toFixed(6))).toEqual(
      [59, 73, -10, 26].map((v) => v.toFixed(6)),
    );
    expect(template.labels.find((l) => l.id === 'C1')?.edge).toBeUndefined();
  });

  test('the check sees lettering moved onto a hole', () => {
    const template = drillTemplate(pumpPlate, 'B', options.speech);
    const on = template.labels.map((l): Shape => ({
      kind: 'text',
      layer: 'note',
      at: l.centre,
      text: l.id,
      capital: 3,
      weight: 'bold',
      anchor: 'middle',
      turn: 0,
      grey: 0,
    }));
    expect(clashes(pumpPlate, on)).toContain('H1 on H1');
  });

  test('side A is the mirror image: places flip, words do not', () => {
    const b = drillTemplate(pumpPlate, 'B', options.speech);
    const a = drillTemplate(pumpPlate, 'A', options.speech);
    for (const [i, h] of a.holes.entries()) {
      expect(h.at.x).toBeCloseTo(-(b.holes[i]?.at.x ?? Number.NaN), 12);
      expect(h.at.y).toBeCloseTo(b.holes[i]?.at.y ?? Number.NaN, 12);
    }
    const box = (t: typeof a): Box | null => shapesBox(t.shapes, letters);
    expect(box(a)?.left).toBeCloseTo(-(box(b)?.right ?? Number.NaN), 6);
    const words = (t: typeof a): string => t.blocks.flatMap((k) => k.lines.map((l) => l.text)).join(' | ');
    expect(words(b)).toContain('Side B faces you | pump behind the plate');
    expect(words(a)).toContain('Side A faces you | motor behind the plate');
  });

  test('a hole that does not come through is only punched from its own side', () => {
    const lines = (side: 'A' | 'B') =>
      drillTemplate(pumpPlate, side, options.speech).labels.find((l) => l.id === 'H11')?.settings[1];
    expect(lines('A')).toContain('16 deep');
    expect(lines('B')).toContain('16 deep, from side A: not here');
  });

  test('what is to be done is not cut short while it may be set in more lines', () => {
    const [first] = pumpPlate.holes;
    if (first === undefined) throw new Error('no hole');
    const blind = {
      ...first,
      as: 'tapped',
      drill: '5/16',
      thread: { name: '3/8-16 UNC', major: 9.525, pitch: 1.5875, depth: null },
      depth: 25.4,
      from: 'A',
      sink: null,
    } as const;
    const template = drillTemplate({ ...pumpPlate, holes: [blind] }, 'B', speechFor('in'));
    const { shapes } = dress(template, letters, growBox(template.box, 60), { drawn: [], strips: [] });
    const words = inkOf(shapes).map((i) => i.words);
    expect(words.filter((w) => w.endsWith('…'))).toEqual([]);
    expect(words).toContain('1 deep, from side A: not here');
  });

  test('on a crowded plate every bore keeps its size in the drawing, and the list has it too', () => {
    const [first] = pumpPlate.holes;
    if (first === undefined) throw new Error('no hole');
    const ring = (n: number, radius: number, from: number) =>
      Array.from({ length: n }, (_, i) => ({
        ...first,
        id: `H${from + i}`,
        diameter: 4.5,
        sink: null,
        x: radius * Math.cos((2 * Math.PI * i) / n),
        y: radius * Math.sin((2 * Math.PI * i) / n),
      }));
    const holes = [...ring(10, 32, 1), ...ring(8, 24, 11)];
    const bores = pumpPlate.bores.map((b) => ({ ...b, diameter: b.diameter / 5 }));
    const template = drillTemplate(
      { ...pumpPlate, holes, bores, outline: outlined(circlePath({ x: 0, y: 0 }, 42)) },
      'B',
      options.speech,
    );
    const { shapes } = dress(template, letters, growBox(template.box, 60), { drawn: [], strips: [] });
    const words = inkOf(shapes)
      .map((i) => i.words)
      .join(' | ');
    expect(words).not.toContain('drill');
    for (const size of ['C1  bore ⌀11.8–12.2', 'C2  recess ⌀18.01–18.031', 'C3  recess ⌀16.01–16.028'])
      expect(words).toContain(size);
    expect(template.list.rows.slice(-3).map((r) => [r[0], r[4], r[5]])).toEqual([
      ['C1', 'bore ⌀11.8–12.2', 'through'],
      ['C2', 'recess ⌀18.01–18.031', '3–3.2 deep, side A'],
      ['C3', 'recess ⌀16.01–16.028', '3–3.2 deep, side B'],
    ]);
  });

  test('a 12 o’clock mark that a join runs through is named beside the join', () => {
    const template = drillTemplate(pumpPlate, 'B', options.speech);
    const clock = template.labels.find((l) => l.id === '12 of motor')?.centre ?? { x: 0, y: 0 };
    const strip = { kind: 'box', box: { left: clock.x - 5, right: clock.x + 5, bottom: -200, top: 200 } } as const;
    const { unplaced } = dress(template, letters, growBox(template.box, 60), { drawn: [], strips: [strip] });
    expect(unplaced).toEqual([]);
  });
});
