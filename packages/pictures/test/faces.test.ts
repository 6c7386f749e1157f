import { speechFor } from '@fayplate/core';
import type { Drawing } from '@fayplate/drawing';
import type { Face, Job } from '@fayplate/job';
import { layoutFace } from '@fayplate/layout';
import { solveStack } from '@fayplate/plate';
import { type LocatedFace, locateFace } from '@fayplate/survey';
import { describe, expect, test } from 'vitest';
import { chainPicture, facePicture, layoutPicture } from '../src/index.js';
import { exampleJob, flat, letters, meetingTexts, outside, textsOf } from './support.js';

const locatedIn = (job: Job): readonly (readonly [Face, LocatedFace])[] => job.faces.map((face) => [face, locateFace({ face, instruments: job.instruments })]);
const speech = speechFor('in');

const drawings = (): readonly (readonly [string, Drawing])[] =>
  ['lift-pump', 'three-to-four'].flatMap((name) => {
    const job = exampleJob(name);
    return [
      ...locatedIn(job).flatMap(([face, located]) => [
        [`${name} ${face.name}`, facePicture(face, located, speech, letters)] as const,
        [`${name} ${face.name} layout`, layoutPicture(face, located, layoutFace(face, located), speech, letters)] as const,
      ]),
      ...(job.stack === null ? [] : [[`${name} chain`, chainPicture(job.stack, solveStack(job.stack), speech, letters)] as const]),
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
    const words = textsOf(facePicture(pump, located, speech, letters)).map((t) => t.text);
    for (const id of located.features.keys()) expect(words).toContain(id);
    expect(words.join(' ')).toContain('Seen from outside');
  });

  test('a suspect reading is set apart by line style and named', () => {
    const wrong: Face = { ...pump, readings: pump.readings.map((r) => (r.text.startsWith('over P1 P3') ? { ...r, value: r.value + 2.54 } : r)) };
    const found = locateFace({ face: wrong, instruments: job.instruments });
    expect(found.suspects.length).toBeGreaterThan(0);
    const dashed = (d: Drawing): number => flat(d.shapes).filter((s) => s.kind === 'path' && s.stroke !== null && s.stroke.width === 0.6 && s.stroke.dash.length > 0).length;
    expect(dashed(facePicture(wrong, found, speech, letters))).toBeGreaterThan(0);
    expect(dashed(facePicture(pump, located, speech, letters))).toBe(0);
    expect(textsOf(facePicture(wrong, found, speech, letters)).map((t) => t.text)).toContain(`reading ${found.suspects[0]?.reading ?? ''}?`);
  });
});
