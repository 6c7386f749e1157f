import { describe, expect, test } from 'vitest';
import { letters, outline } from '../fonts.js';

const heightOf = (text: string, capital: number): number =>
  Math.max(
    ...outline(text, capital)
      .contours.flat()
      .map((p) => p.y),
  );

describe('letters as outlines', () => {
  test('a capital is as high as asked, in mm', () => {
    expect(heightOf('H', 3.5)).toBeCloseTo(3.5, 9);
    expect(heightOf('H', 7)).toBeCloseTo(7, 9);
  });

  test('no outline holds a line of no length, which a cutter would stop at', () => {
    const steps = letters
      .lay('Spread of 8 × ⌀3⅝ & ½″', 3, 'regular')
      .glyphs.flatMap((g) =>
        letters
          .glyph(g.id, 'regular')
          .contours.flatMap((c) => c.steps.map((s, i) => ({ from: c.steps[i - 1]?.to ?? c.start, ...s }))),
      );
    expect(steps.filter((s) => s.kind === 'line').length).toBeGreaterThan(20);
    expect(steps.filter((s) => s.kind === 'line' && s.from.x === s.to.x && s.from.y === s.to.y)).toEqual([]);
  });

  test('width scales with height, and the figures share one width', () => {
    const w = letters.width('87.96 mm', 2.5, 'regular');
    expect(letters.width('87.96 mm', 5, 'regular')).toBeCloseTo(2 * w, 9);
    for (const weight of ['regular', 'bold'] as const) {
      const widths = ['11111', '00000', '17171', '49304'].map((s) => letters.width(s, 2.5, weight));
      for (const each of widths) expect(each).toBeCloseTo(widths[0] ?? Number.NaN, 9);
    }
  });

  test('pairs are kerned: AV is narrower than A and V', () => {
    const apart = letters.width('A', 10, 'regular') + letters.width('V', 10, 'regular');
    expect(letters.width('AV', 10, 'regular')).toBeLessThan(apart - 0.3);
  });

  test('the signs of the trade are all drawn', () => {
    expect(letters.lay('±⌀″′×°⁄µσ✓➜½¼⅛Ø−–—…→↑↓△□○◇', 3, 'regular').missing).toEqual([]);
    expect(letters.lay('±⌀″′×°⁄µσ✓➜½¼⅛Ø−–—…→↑↓', 3, 'bold').missing).toEqual([]);
  });
});

describe('what cannot be drawn is shown as its code, never blank', () => {
  test.each([
    ['漢', 'U+6F22'],
    ['\u0000', 'U+0000'],
    ['\n', 'U+000A'],
    ['\u202E', 'U+202E'],
    ['\u200B', 'U+200B'],
    ['\uD800', 'U+D800'],
    ['ب', 'U+0628'],
    ['\u{1F6E0}', 'U+1F6E0'],
  ])('%j', (character, code) => {
    const laid = letters.lay(`A${character}B`, 3, 'regular');
    expect(laid.missing).toEqual([code]);
    expect(laid.glyphs.map((g) => g.text).join('')).toBe(`A[${code}]B`);
  });

  test('Hebrew is drawn in the order it is read, among Latin words', () => {
    const laid = letters.lay('P1 שלום 12', 3, 'regular');
    expect(laid.missing).toEqual([]);
    expect(laid.glyphs.map((g) => g.text).join('')).toBe('P1 12 םולש');
  });

  test('composed and decomposed letters are the same', () => {
    expect(outline('e\u0301', 3)).toEqual(outline('é', 3));
  });
});
