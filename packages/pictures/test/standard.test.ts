import { expect, test } from 'vitest';
import { speechFor } from '@fayplate/core';
import { pens, shapesBox } from '@fayplate/drawing';
import { standardFace, standardFaces } from '@fayplate/handbook';
import { standardPicture } from '../src/index.js';
import { letters } from './support.js';

// IEC 60072-1: FF165 is 200 mm over all.
test('a standard face is drawn at true scale, its outside and all', () => {
  const face = standardFace('FF165');
  if (face === null) throw new Error('no FF165');
  const picture = standardPicture(face, speechFor('mm'), letters);
  expect(picture.scale).toBe(1);
  const box = shapesBox(picture.shapes.slice(0, 1), letters);
  expect((box?.right ?? 0) - (box?.left ?? 0)).toBeCloseTo(200 + pens.wide.width, 6);
});

test('every one can be drawn, with each hole named or said', () => {
  for (const face of standardFaces()) {
    const picture = standardPicture(face, speechFor('in'), letters);
    const words = JSON.stringify(picture);
    for (let i = 1; i <= face.holes.count; i++) expect(words).toContain(`B${i}`);
    expect(picture.notes.join(' ')).toContain(' in');
  }
});
