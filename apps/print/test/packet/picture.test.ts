import { type Picture, type Shape, type TextShape, circle, pens, shapesBox } from '@fayplate/drawing';
import { describe, expect, test } from 'vitest';
import { picturePiece } from '../../src/packet/picture.js';
import { letters } from '../fonts.js';

const round = (radius: number, scale: number | null = 1): Picture => ({
  title: 'Plate, side B',
  shapes: [circle('cut', { x: 7, y: -3 }, radius, pens.wide)],
  notes: ['Hidden edges are broken lines.'],
  scale,
  capital: 4,
  box: { left: 7 - radius - 1, right: 7 + radius + 1, bottom: -3 - radius - 1, top: -3 + radius + 1 },
});
const texts = (shapes: readonly Shape[]): readonly TextShape[] => shapes.flatMap((s) => (s.kind === 'text' ? [s] : []));
const words = (p: Picture, height = 120): readonly string[] =>
  texts(picturePiece(p, 170, height, height, letters).shapes).map((t) => t.text);

describe('a picture on a page', () => {
  test('that fits is full size and says so', () => {
    expect(words(round(40))).toEqual(['Plate, side B', 'Hidden edges are broken lines.', 'Drawn full size.']);
  });

  test('made smaller says by how much, and never claims full size', () => {
    const said = words(round(100)).at(-1) ?? '';
    const per = Number(/^Drawn 1 : ([\d.]+)\.$/.exec(said)?.[1]);
    const drawn = picturePiece(round(100), 170, 120, 240, letters).shapes.find((s) => s.kind === 'path');
    const box = drawn === undefined ? null : shapesBox([drawn], letters);
    expect(box).not.toBeNull();
    expect(200 / ((box?.right ?? 0) - (box?.left ?? 0) - pens.wide.width / per)).toBeCloseTo(per, 1);
  });

  test('of small letters is made larger, so that they are read at arm’s length', () => {
    const small: Picture = { ...round(15), capital: 1.8 };
    expect(words(small).at(-1)).toBe('Drawn 1.39 : 1.');
    const drawn = picturePiece(small, 170, 120, 240, letters).shapes.find((s) => s.kind === 'path');
    const box = drawn === undefined ? null : shapesBox([drawn], letters);
    expect((box?.right ?? 0) - (box?.left ?? 0)).toBeCloseTo((30 * 2.5) / 1.8 + pens.wide.width, 6);
  });

  test('made smaller keeps lines that a printer can draw, and wide ones twice as wide as narrow ones', () => {
    const lines = [circle('cut', { x: 0, y: 0 }, 450, pens.wide), circle('cut', { x: 0, y: 0 }, 400, pens.narrow)];
    const { shapes } = picturePiece({ ...round(500), shapes: lines }, 170, 120, 240, letters);
    const [wide = 0, narrow = 0] = shapes.flatMap((s) =>
      s.kind === 'path' && s.stroke !== null ? [s.stroke.width] : [],
    );
    expect(wide / narrow).toBeCloseTo(2, 9);
    expect(narrow).toBeGreaterThan(0.07);
  });

  test('with many notes keeps its size as far as the page has room', () => {
    const wordy: Picture = { ...round(100), notes: Array.from({ length: 20 }, (_, i) => `H${i + 1}: tapped.`) };
    const wide = (most: number): number => {
      const piece = picturePiece(wordy, 170, 120, most, letters);
      expect(piece.height).toBeLessThanOrEqual(most + 1e-9);
      const drawn = piece.shapes.find((s) => s.kind === 'path');
      const box = drawn === undefined ? null : shapesBox([drawn], letters);
      return (box?.right ?? 0) - (box?.left ?? 0);
    };
    expect(wide(240)).toBeGreaterThan(72);
    expect(wide(130)).toBeLessThan(36);
  });

  test('a chart claims no scale', () => {
    expect(words(round(100, null)).join(' ')).not.toMatch(/Drawn/);
  });

  test('keeps within its height and its words to reading size, however small the drawing has become', () => {
    for (const radius of [20, 60, 100, 500]) {
      const piece = picturePiece(round(radius), 170, 120, 240, letters);
      const box = shapesBox(piece.shapes, letters);
      expect(piece.height).toBeLessThanOrEqual(120 + 1e-9);
      expect(box?.top).toBeLessThanOrEqual(0.5);
      expect(box?.bottom).toBeGreaterThanOrEqual(-piece.height);
      expect(box?.right).toBeLessThanOrEqual(170);
      for (const t of texts(piece.shapes)) expect(t.capital).toBeGreaterThanOrEqual(2);
    }
  });
});
