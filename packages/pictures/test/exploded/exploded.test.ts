import { type Point, distance, flipX, movePath, apply, speechFor } from '@fayplate/core';
import { type GroupShape, captioned } from '@fayplate/drawing';
import type { Job } from '@fayplate/job';
import type { Plate } from '@fayplate/plate';
import { describe, expect, test } from 'vitest';
import { explodedPicture } from '../../src/index.js';
import { piecesOf } from '../../src/exploded/pieces.js';
import { project } from '../../src/exploded/visible.js';
import { crowded, design, exampleJob, flat, letters, meetingTexts, outside, textsOf } from '../support.js';

const speech = speechFor('mm');
const viewOf = (job: Job) => {
  const { plate, mated } = design(job);
  const input = { job, plate, mated, benches: new Map() };
  return { input, picture: explodedPicture(input, speech, letters) };
};

const linesOf = (shapes: readonly unknown[], name: string): readonly (readonly Point[])[] => {
  const found = (shapes as readonly GroupShape[]).find((s) => s.kind === 'group' && s.name === name);
  return flat(found?.shapes ?? []).flatMap((s) =>
    s.kind === 'path' ? [[s.path.start, ...s.path.edges.map((e) => e.to)]] : [],
  );
};

// ISO 5456-3:1996, from memory: in isometric the three axes are 120° apart and alike in scale.
test('along each axis a length on paper is the true one, and the axes lie 120° apart', () => {
  const o = project({ x: 0, y: 0, z: 0 });
  const ends = [project({ x: 10, y: 0, z: 0 }), project({ x: 0, y: 10, z: 0 }), project({ x: 0, y: 0, z: 10 })];
  for (const e of ends) expect(distance(o, e)).toBeCloseTo(10, 12);
  const [x, y, z] = ends.map((e) => Math.atan2(e.y, e.x) * (180 / Math.PI));
  expect([x, y, z]).toEqual([expect.closeTo(30, 9), expect.closeTo(90, 9), expect.closeTo(-30, 9)]);
  // A true length along any other direction is not to scale: the value that must fail.
  expect(distance(o, project({ x: 6, y: 8, z: 0 }))).not.toBeCloseTo(10, 1);
});

describe.each(['lift-pump', 'three-to-four'])('%s', (name) => {
  const { input, picture } = viewOf(exampleJob(name));
  const { plate } = input;

  test('nothing is clipped, no lettering lies on other lettering', () => {
    const drawing = captioned(picture, letters);
    expect(outside(drawing)).toEqual([]);
    expect(meetingTexts(drawing)).toEqual([]);
  });

  test('every piece is named, in the order in which they go together, and the sides are', () => {
    const words = textsOf(picture).map((t) => t.text);
    for (const piece of [...plate.faces, 'plate', ...input.job.gaskets.map((g) => `gasket for ${g.face}`)])
      expect(words.filter((w) => w === piece)).toHaveLength(1);
    const at = (w: string): number => textsOf(picture).find((t) => t.text === w)!.at.x;
    const [first, second] = plate.faces;
    const order = [first, ...input.job.gaskets.map((g) => `gasket for ${g.face}`), 'plate', second].map(at);
    expect(order).toEqual(order.toSorted((a, b) => a - b));
    expect(words).toContain(`side B: ${second}, A behind: ${first}`);
    expect(picture.notes.join(' ')).toMatch(/shows its side B.*B stands on side B/);
  });

  test('the plate is as thick on paper as it is times the scale, and as wide', () => {
    const k = picture.scale!;
    const points = linesOf(picture.shapes, 'plate').flat();
    // Square to the shaft's direction on paper nothing of the plate is as far across as its rim: compare with the rim's
    // own.
    const across = (p: Point): number => p.x / 2 + (p.y * Math.sqrt(3)) / 2;
    const rim = piecesOf(input, 0.01).find((p) => p.kind === 'plate')!.body[0]!.ring.points;
    const true3 = rim.map((p) => across(project({ ...p, z: 0 })));
    const width = Math.max(...points.map(across)) - Math.min(...points.map(across));
    expect(Math.abs(width / k - (Math.max(...true3) - Math.min(...true3)))).toBeLessThan(0.15);
    // Lines square to the plate: of the rim alone those that turn from the eye, as long as it is thick.
    const upright = linesOf(picture.shapes, 'plate').filter(
      (run) =>
        run.length === 2 && Math.abs((run[1]!.y - run[0]!.y) / (run[1]!.x - run[0]!.x) + Math.tan(Math.PI / 6)) < 1e-2,
    );
    const longest = Math.max(...upright.map((run) => distance(run[0]!, run[1]!)));
    expect(Math.abs(longest / k - plate.thickness)).toBeLessThan(0.01);
  });

  test('every fastener floats on the axis of its own hole', () => {
    const k = picture.scale!;
    for (const h of plate.holes.filter((x) => x.part !== null)) {
      const off = (p: Point): number => {
        const q = project({ x: h.x, y: h.y, z: 0 });
        // Distance from the line through the hole along the shaft.
        return Math.abs((p.x / k - q.x) * 0.5 + (p.y / k - q.y) * (Math.sqrt(3) / 2));
      };
      const own = linesOf(picture.shapes, h.id).flat();
      if (own.length === 0) continue;
      const reach = Math.max(
        h.fastening?.head?.washer?.outside ?? 0,
        1.9 * (h.fastening?.nominal ?? 0),
        h.fastening?.head?.diameter ?? 0,
      );
      expect(Math.max(...own.map(off))).toBeLessThan(reach * 0.62);
    }
  });

  test('a plate that is turned over does not look the same', () => {
    const over: Plate = {
      ...plate,
      outline: { ...plate.outline, path: movePath(flipX, plate.outline.path) },
      holes: plate.holes.map((h) => ({ ...h, ...apply(flipX, h) })),
      bores: plate.bores.map((b) => ({ ...b, ...apply(flipX, b) })),
    };
    const other = explodedPicture({ ...input, plate: over }, speech, letters);
    expect(JSON.stringify(linesOf(other.shapes, 'plate'))).not.toBe(JSON.stringify(linesOf(picture.shapes, 'plate')));
  });
});

test('other names for parts, holes and job leave every line as it is', () => {
  const job = exampleJob('three-to-four');
  const { input, picture } = viewOf(job);
  const named = (n: string): string => (n === 'fan' ? 'blower' : n);
  const renamed = {
    ...input,
    job: { ...job, name: 'Another', faces: job.faces.map((f) => ({ ...f, name: named(f.name) })) },
    mated: input.mated.map((m) => ({ ...m, face: named(m.face) })),
    plate: {
      ...input.plate,
      faces: input.plate.faces.map(named) as unknown as readonly [string, string],
      holes: input.plate.holes.map((h) =>
        h.part === null ? h : { ...h, part: { ...h.part, face: named(h.part.face) } },
      ),
    },
  };
  const other = explodedPicture(renamed, speech, letters);
  expect(linesOf(other.shapes, 'plate')).toEqual(linesOf(picture.shapes, 'plate'));
  expect(linesOf(other.shapes, 'blower')).toEqual(linesOf(picture.shapes, 'fan'));
  expect(linesOf(other.shapes, 'blower').length).toBeGreaterThan(5);
});

test('what is not measured is said and broken; what is has solid lines', () => {
  const { picture } = viewOf(exampleJob('three-to-four'));
  expect(picture.notes.join(' ')).toContain(
    'Not measured, and drawn only to show the place: the rim of fan and the rim of post.',
  );
  const dashed = (name: string): boolean =>
    flat((picture.shapes as readonly GroupShape[]).find((s) => s.name === name)?.shapes ?? []).some(
      (s) => s.kind === 'path' && (s.stroke?.dash.length ?? 0) > 0,
    );
  expect([dashed('fan'), dashed('post'), dashed('plate')]).toEqual([true, true, false]);
});

test('a crowded plate is drawn too, with the names left to its own drawing', () => {
  const { picture } = viewOf(crowded());
  expect(outside(captioned(picture, letters))).toEqual([]);
  expect(textsOf(picture).map((t) => t.text)).toContain('plate');
});
