import { speechFor } from '@fayplate/core';
import { type Drawing, captioned } from '@fayplate/drawing';
import type { Face, Job } from '@fayplate/job';
import { layoutFace } from '@fayplate/layout';
import { solveStack } from '@fayplate/plate';
import { type LocatedFace, locateFace } from '@fayplate/survey';
import { describe, expect, test } from 'vitest';
import { chainPicture, facePicture, layoutPicture } from '../src/index.js';
import { exampleJob, flat, jobFrom, letters, meetingTexts, outside, textsOf } from './support.js';

const locatedIn = (job: Job): readonly (readonly [Face, LocatedFace])[] =>
  job.faces.map((face) => [face, locateFace({ face, instruments: job.instruments })]);
const speech = speechFor('in');

const drawings = (): readonly (readonly [string, Drawing])[] =>
  ['lift-pump', 'three-to-four'].flatMap((name) => {
    const job = exampleJob(name);
    return [
      ...locatedIn(job).flatMap(([face, located]) => [
        [`${name} ${face.name}`, captioned(facePicture(face, located, speech, letters), letters)] as const,
        [
          `${name} ${face.name} layout`,
          captioned(layoutPicture(face, located, layoutFace(face, located), speech, letters), letters),
        ] as const,
      ]),
      ...(job.stack === null
        ? []
        : [
            [
              `${name} chain`,
              captioned(chainPicture(job.stack, solveStack(job.stack), speech, letters), letters),
            ] as const,
          ]),
    ];
  });

describe.each(drawings())('%s', (_name, drawing) => {
  test('nothing is clipped', () => expect(outside(drawing)).toEqual([]));
  test('no lettering meets other lettering', () => expect(meetingTexts(drawing)).toEqual([]));
});

describe('a face as measured', () => {
  const job = exampleJob('lift-pump');
  const [pump, located] = locatedIn(job)[0] ?? [];
  if (pump === undefined || located === undefined) throw new Error('no pump');

  test('every located feature is named, and the side seen is written', () => {
    const words = textsOf(captioned(facePicture(pump, located, speech, letters), letters)).map((t) => t.text);
    for (const id of located.features.keys()) expect(words).toContain(id);
    expect(words.join(' ')).toContain('Seen from outside');
  });

  test('a suspect reading is set apart by line style and named', () => {
    const wrong: Face = {
      ...pump,
      readings: pump.readings.map((r) => (r.text.startsWith('over P1 P3') ? { ...r, value: r.value + 2.54 } : r)),
    };
    const found = locateFace({ face: wrong, instruments: job.instruments });
    expect(found.suspects.length).toBeGreaterThan(0);
    const dashed = (d: Drawing): number =>
      flat(d.shapes).filter(
        (s) => s.kind === 'path' && s.stroke !== null && s.stroke.width === 0.6 && s.stroke.dash.length > 0,
      ).length;
    expect(dashed(captioned(facePicture(wrong, found, speech, letters), letters))).toBeGreaterThan(0);
    expect(dashed(captioned(facePicture(pump, located, speech, letters), letters))).toBe(0);
    expect(textsOf(captioned(facePicture(wrong, found, speech, letters), letters)).map((t) => t.text)).toContain(
      `reading ${found.suspects[0]?.reading ?? ''}`,
    );
  });
});

describe('a crowded face', () => {
  const count = 36;
  const ids = Array.from({ length: count }, (_, i) => `H${i + 1}`);
  const spot = (i: number) => ({
    x: 24 * (i % 6) + 2 * Math.sin(7 * i),
    y: 24 * Math.floor(i / 6) + 2 * Math.cos(5 * i),
  });
  const readings = ids.flatMap((a, i) =>
    ids.slice(i + 1, i + 9).map((b, k) => {
      const [p, q] = [spot(i), spot(i + 1 + k)];
      return `      - centres ${a} ${b} = ${Math.hypot(p.x - q.x, p.y - q.y).toFixed(2)} mm ± 0.1 mm`;
    }),
  );
  const job = jobFrom(
    [
      'job: sieve',
      'units: mm',
      'faces:',
      '  sieve:',
      '    across: H1 H6',
      '    features:',
      ...ids.map((id) => `      ${id}: { kind: hole, diameter: 9 mm }`),
      '    readings:',
      ...readings,
      '',
    ].join('\n'),
  );

  test('every hole has its name, in the drawing or in the notes, and no lettering meets other lettering', () => {
    const [face] = job.faces;
    if (face === undefined) throw new Error('no face');
    const drawing = captioned(
      facePicture(face, locateFace({ face, instruments: job.instruments }, { next: false }), speechFor('mm'), letters),
      letters,
    );
    expect(meetingTexts(drawing)).toEqual([]);
    expect(outside(drawing)).toEqual([]);
    const words = textsOf(drawing)
      .map((t) => t.text)
      .join(' ')
      .split(/[ ,.]+/);
    for (const id of ids) expect(words).toContain(id);
  });
});

test('a layout says its free sizes in the unit that is spoken', () => {
  const [face, located] = locatedIn(exampleJob('lift-pump'))[0] ?? [];
  if (face === undefined || located === undefined) throw new Error('no pump');
  const layout = layoutFace(face, located, { telling: false });
  const [first] = layout.candidates;
  if (first === undefined) throw new Error('no candidate');
  const free = { ...layout, candidates: [{ ...first, circles: first.circles.map((c) => ({ ...c, size: null })) }] };
  const wordsIn = (unit: 'in' | 'mm'): string =>
    textsOf(captioned(layoutPicture(face, located, free, speechFor(unit), letters), letters))
      .map((t) => t.text)
      .join(' ');
  expect(wordsIn('in')).toContain('a circle of 7.500 in');
  expect(wordsIn('mm')).toContain('a circle of 190.50 mm');
});

describe('a layout', () => {
  const pictureOf = (name: string, at: number) => {
    const job = exampleJob(name);
    const [face, located] = locatedIn(job)[at] ?? [];
    if (face === undefined || located === undefined) throw new Error('no face');
    return {
      located,
      drawing: layoutPicture(face, located, layoutFace(face, located, { telling: false }), speech, letters),
    };
  };

  test('that is taken is what its maker meant; where none fits, the drawing speaks of no crosses that it has not', () => {
    expect(pictureOf('lift-pump', 0).drawing.title).toBe('pump: as its maker meant it');
    const post = pictureOf('three-to-four', 1).drawing;
    expect(post.title).toBe('post: as its maker meant it, as far as that is sure');
    expect(post.notes.join(' ')).toMatch(/Taken, as far as it is sure: .* Thin cross on the slant: .* 104 mm circle/);
    const { drawing } = pictureOf('apple-mill', 0);
    expect(drawing.title).toBe('side: no simple layout');
    expect(drawing.notes.join(' ')).not.toContain('Cross');
  });

  test('has a line of symmetry no longer than what lies along it', () => {
    const { located, drawing } = pictureOf('dowelled-press', 0);
    const xs = [...located.features.values()].map((f) => f.x);
    const [least, most] = [Math.min(...xs), Math.max(...xs)];
    expect(drawing.box.left).toBeGreaterThan(least - 0.2 * (most - least));
    expect(drawing.box.right).toBeLessThan(most + 0.2 * (most - least));
  });

  test('names every feature where names are long: leaders run over the lines of the construction', () => {
    const places = [200, -200].flatMap((y) => [-270, -90, 90, 270].map((x) => [x, y] as const));
    const ids = places.map((_, i) => `row_of_studs_number_${i + 1}`);
    const job = jobFrom(
      [
        'job: bedplate',
        'units: mm',
        'instruments: { readout: ± 0.03 }',
        'faces:',
        '  bedplate:',
        '    centre: main_bearing_bore',
        '    features:',
        '      main_bearing_bore: { kind: bore, diameter: 180 }',
        ...ids.map((id) => `      ${id}: { kind: stud, thread: M16, diameter: 16 }`),
        '    readings:',
        '      - at main_bearing_bore = (0, 0) by readout',
        ...ids.map((id, i) => `      - at ${id} = (${places[i]?.join(', ') ?? ''}) by readout`),
        '',
      ].join('\n'),
    );
    const [face] = job.faces;
    if (face === undefined) throw new Error('no face');
    const located = locateFace({ face, instruments: job.instruments }, { next: false });
    const drawing = layoutPicture(face, located, layoutFace(face, located, { telling: false }), speech, letters);
    expect(drawing.notes.filter((n) => n.startsWith('No room'))).toEqual([]);
    expect(meetingTexts(captioned(drawing, letters))).toEqual([]);
  });
});
