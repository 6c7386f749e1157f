import { circlePath, distance, pathBox, pathLength, signedArea } from '@fayplate/core';
import type { Plate } from '@fayplate/plate';
import { beforeAll, describe, expect, test } from 'vitest';
import { flatPlate } from '../src/flat/openings.js';
import { ringArea, ringOf } from '../src/flat/polygon.js';
import { NOT_FOR_SERVICE, type TestPiece, fitSize, laserSvg, pieceSolid, testPiece, threeMf } from '../src/index.js';
import { read3mf, volumeOf } from './reader.js';
import { exampleNames, letters, plateOf } from './support.js';

const made = (plate: Plate, side: 'A' | 'B' = 'B', name = 'Heron Lane'): TestPiece => {
  const piece = testPiece(plate, { side, name }, letters);
  if ('tooNarrow' in piece) throw new Error(piece.tooNarrow.join());
  return piece;
};
const solidOf = (piece: TestPiece, thickness = 3, plain = false) => {
  const solid = pieceSolid(piece, thickness, letters, plain);
  if (!solid.ok) throw new Error(solid.fault);
  return solid;
};
/** Of the outlines less the openings, their arcs exact. */
const areaOf = (piece: Pick<TestPiece, 'outlines' | 'openings'>): number =>
  piece.outlines.reduce((sum, p) => sum + Math.abs(signedArea(p)), 0) -
  piece.openings.reduce((sum, o) => sum + Math.abs(signedArea(o.path)), 0);

let pump: Plate;
beforeAll(() => {
  pump = plateOf('lift-pump');
});
/** The pump's plate with other holes. */
const withHoles = (...at: readonly (readonly [x: number, y: number, diameter: number])[]): Plate => {
  const [one] = pump.holes;
  if (one === undefined) throw new Error('no hole');
  return {
    ...pump,
    bores: [],
    outline: { ...pump.outline, path: circlePath({ x: 0, y: 0 }, 60) },
    holes: at.map(([x, y, diameter], i) => ({ ...one, id: `H${i + 1}`, x, y, diameter, thread: null, slot: null })),
  };
};

describe.each(exampleNames)('%s', (name) => {
  let plate: Plate;
  beforeAll(() => {
    plate = plateOf(name);
  });

  test('is closed for the reader of the 3MF Consortium, and holds area × thickness to 1e-6', async () => {
    for (const side of ['A', 'B'] as const) {
      const piece = made(plate, side);
      const plain = solidOf(piece, 3, true);
      const bare = await read3mf(threeMf(plain, { title: 'Piece', description: 'x' }));
      expect([bare.closed, bare.warnings, bare.millimetres]).toEqual([true, 0, true]);
      expect(Math.abs(volumeOf(bare) / (3 * areaOf(piece)) - 1)).toBeLessThan(1e-6);
      const named = solidOf(piece);
      const read = await read3mf(threeMf(named, { title: 'Piece', description: 'x' }));
      expect([read.closed, read.warnings]).toEqual([true, 0]);
      const engraved = named.engraved.area * named.engraved.depth;
      expect(engraved).toBeGreaterThan(20);
      expect(Math.abs((volumeOf(read) + engraved) / (3 * areaOf(piece)) - 1)).toBeLessThan(1e-6);
      const heights = new Set(read.vertices.map((v) => v[2].toFixed(4)));
      expect([...heights].sort()).toEqual(['0.0000', '2.4000', '3.0000']);
    }
  });

  test('every hole that is tried has its size and place, and its name beside it', () => {
    const piece = made(plate);
    const { mesh } = solidOf(piece);
    for (const h of plate.holes.filter((x) => x.slot === null && piece.openings.some((o) => o.of.join() === x.id))) {
      const wall = mesh.vertices.filter((v) => v[2] === 3).map((v) => Math.hypot(v[0] - h.x, v[1] - h.y));
      // No wall of any other cut is nearer than its own.
      expect(2 * Math.min(...wall)).toBeCloseTo(fitSize(h), 2);
      expect(piece.texts.filter((t) => t.text === h.id)).toHaveLength(1);
    }
    expect(piece.texts.map((t) => t.text).join(' ')).toContain('NOT FOR SERVICE');
    expect(piece.texts.map((t) => t.text).join(' ')).toContain(plate.faces[1]);
    expect(piece.notes.join()).not.toContain('No room');
  });

  test('side A is the mirror image of side B', () => {
    const [a, b] = [made(plate, 'A'), made(plate, 'B')];
    expect(areaOf(a)).toBeCloseTo(areaOf(b), 3);
    const [p, q] = [pathBox(a.outlines[0]!), pathBox(b.outlines[0]!)];
    expect([p.left, p.right, p.bottom, p.top].map((v) => v.toFixed(6))).toEqual(
      [-q.right, -q.left, q.bottom, q.top].map((v) => v.toFixed(6)),
    );
  });
});

describe('for a laser', () => {
  test('one closed path a cut, in true millimetres, names apart', () => {
    const drawn = laserSvg(pump, made(pump), { kerf: 0, title: 'Heron Lane' }, letters);
    const svg = 'text' in drawn ? drawn.text : '';
    const [, cut, mark] = [
      '',
      svg.slice(svg.indexOf('<g id="cut">')),
      svg.slice(svg.indexOf('<g id="mark">'), svg.indexOf('<g id="cut">')),
    ];
    const paths = [...cut.matchAll(/ d="([^"]+)"/g)].map(([, d = '']) => d);
    // Eleven holes, the largest of three bores about one axis, and the outline.
    expect(paths).toHaveLength(13);
    for (const d of paths) expect([d.split('M').length, d.endsWith('Z')]).toEqual([2, true]);
    expect(svg).toMatch(/^<svg [^>]*width="[\d.]+mm"/);
    for (const name of ['H1', 'H11', NOT_FOR_SERVICE]) expect(mark).toContain(`aria-label="${name}"`);
  });

  // By hand: a burn of 0.3 mm takes 0.15 on either side of its path, so that a hole of 10 is drawn 9.7 across, a disc
  // of 120 120.3.
  test('the kerf lies on the side of the waste', () => {
    const cut = flatPlate(withHoles([0, 0, 10]), 'B', 0.15);
    if ('tooNarrow' in cut) throw new Error('too narrow');
    const across = (path: (typeof cut.outlines)[number]): number => pathBox(path).right - pathBox(path).left;
    expect(across(cut.openings[0]!.path)).toBeCloseTo(9.7, 9);
    expect(across(cut.outlines[0]!)).toBeCloseTo(120.3, 9);
    // The beam sweeps to the size that was asked for.
    expect(pathLength(cut.openings[0]!.path) / Math.PI + 0.3).toBeCloseTo(10, 9);
  });

  test('a cut that is narrower than the burn is refused by name', () => {
    expect(flatPlate(withHoles([0, 0, 10], [30, 0, 0.25]), 'B', 0.15)).toEqual({ tooNarrow: ['H2'] });
  });
});

describe('cuts that meet', () => {
  // By hand: two circles of radius 5 whose centres are 6 apart share 2·25·acos(0.6) − 3·8 = 22.365 mm².
  test('are one opening', async () => {
    const piece = made(withHoles([0, 0, 10], [6, 0, 10]));
    expect(piece.openings.map((o) => o.of)).toEqual([['H1', 'H2']]);
    const shared = 50 * Math.acos(0.6) - 24;
    expect(Math.abs(signedArea(piece.openings[0]!.path))).toBeCloseTo(50 * Math.PI - shared, 1);
    expect(piece.notes.join()).toContain('H1 and H2 run into another cut');
    const read = await read3mf(threeMf(solidOf(piece), { title: 'x', description: 'x' }));
    expect(read.closed).toBe(true);
  });

  test('over the edge take a bite out of the outline', async () => {
    const piece = made(withHoles([0, 0, 10], [60, 0, 10]));
    expect(piece.openings.map((o) => o.of)).toEqual([['H1']]);
    expect(areaOf(piece)).toBeLessThan(Math.PI * (3600 - 25) - 35);
    const read = await read3mf(threeMf(solidOf(piece), { title: 'x', description: 'x' }));
    expect(read.closed).toBe(true);
    expect(piece.notes.join()).toContain('H2');
  });

  test('one within another is not tried, and that is said', () => {
    const piece = made(withHoles([0, 0, 40], [5, 0, 10]));
    expect(piece.openings.map((o) => o.of)).toEqual([['H1']]);
    expect(piece.notes.join()).toContain('H2 lies in a larger opening');
  });

  test('in one point are refused, since no solid can be there', () => {
    const piece: TestPiece = {
      ...made(withHoles([0, 0, 10])),
      texts: [],
      openings: [
        {
          of: ['H1'],
          path: {
            start: { x: 0, y: 0 },
            closed: true,
            edges: [
              { kind: 'line', to: { x: -5, y: 5 } },
              { kind: 'line', to: { x: -5, y: -5 } },
              { kind: 'line', to: { x: 0, y: 0 } },
            ],
          },
        },
        {
          of: ['H2'],
          path: {
            start: { x: 0, y: 0 },
            closed: true,
            edges: [
              { kind: 'line', to: { x: 5, y: -5 } },
              { kind: 'line', to: { x: 5, y: 5 } },
              { kind: 'line', to: { x: 0, y: 0 } },
            ],
          },
        },
      ],
    };
    expect(pieceSolid(piece, 3, letters)).toMatchObject({ ok: false });
  });
});

test.each(['Ångström & Çelik', 'ØÆ %@#&', 'Ж日', '𝒳'])('a job of any name, %s, is a closed body', async (name) => {
  const read = await read3mf(threeMf(solidOf(made(pump, 'B', name)), { title: name, description: '<x>' }));
  expect(read.closed).toBe(true);
  expect(read.meta.get('Description')).toBe('<x>');
});

test('the same plate gives the same bytes', () => {
  const bytes = () => threeMf(solidOf(made(pump)), { title: 'x', description: 'x' });
  expect(Buffer.from(bytes()).equals(Buffer.from(bytes()))).toBe(true);
});

describe('points of a path', () => {
  test('enclose what the arcs enclose, and keep within the tolerance', () => {
    const path = pump.outline.path;
    expect(ringArea(ringOf(path))).toBeCloseTo(Math.abs(signedArea(path)), 6);
    for (const p of ringOf(circlePath({ x: 3, y: 4 }, 20)))
      expect(Math.abs(distance(p, { x: 3, y: 4 }) - 20)).toBeLessThan(0.003);
  });
});
