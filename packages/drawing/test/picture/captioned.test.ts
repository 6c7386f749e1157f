import { describe, expect, test } from 'vitest';
import {
  type Picture,
  type TextShape,
  captioned,
  circle,
  pens,
  scaleWords,
  shapesBox,
  textBox,
} from '../../src/index.js';
import { letters } from '../fonts.js';

const picture = (more: Partial<Picture> = {}): Picture => ({
  title: 'Plate, side B',
  box: { left: -30, right: 30, bottom: -30, top: 30 },
  shapes: [circle('cut', { x: 0, y: 0 }, 25, pens.wide)],
  notes: [
    'Side B faces you; the motor lies on this side, and every edge that cannot be seen from here is a broken line.',
  ],
  scale: 1,
  capital: 3,
  ...more,
});
const textsOf = (p: Picture): readonly TextShape[] =>
  captioned(p, letters).shapes.flatMap((s) => (s.kind === 'text' ? [s] : []));

describe('a picture as a file of its own', () => {
  test('carries its title, its notes and its scale, all inside its box and clear of the drawing', () => {
    const drawing = captioned(picture(), letters);
    const words = textsOf(picture());
    expect(words.map((t) => t.text).join(' ')).toBe(`Plate, side B ${picture().notes[0] ?? ''} Drawn full size.`);
    const box = shapesBox(drawing.shapes, letters);
    expect(box).toEqual(drawing.box);
    for (const t of words) {
      const b = textBox(t, letters);
      expect(b.bottom > 25 || b.top < -25).toBe(true);
    }
  });

  test('lies on white, so that black lines show on any ground', () => {
    expect(captioned(picture(), letters).shapes[0]).toMatchObject({ kind: 'path', stroke: null, fill: 1 });
  });

  test('a chart without a scale of lengths claims none', () => {
    expect(textsOf(picture({ scale: null })).some((t) => t.text.includes('Drawn'))).toBe(false);
  });
});

describe('what a drawing may say of its size', () => {
  test.each([
    [1, 'Drawn full size.'],
    [0.5, 'Drawn 1 : 2.'],
    [0.435, 'Drawn 1 : 2.3.'],
    [2, 'Drawn 2 : 1.'],
    [0.99, 'Drawn 1 : 1.01.'],
    [null, ''],
  ])('%s: %s', (scale, words) => {
    expect(scaleWords(scale)).toBe(words);
  });
});
