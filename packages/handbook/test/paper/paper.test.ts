import { describe, expect, test } from 'vitest';
import { paper } from '../../src/index.js';

// ISO 216 and ASME Y14.1 as read: mm and PostScript points of 1/72 in.
describe('paper', () => {
  test.each([
    ['A5', 148, 210, 419.53, 595.28],
    ['A4', 210, 297, 595.28, 841.89],
    ['A3', 297, 420, 841.89, 1190.55],
    ['A2', 420, 594, 1190.55, 1683.78],
    ['Letter', 215.9, 279.4, 612, 792],
    ['ANSI A', 215.9, 279.4, 612, 792],
    ['Legal', 215.9, 355.6, 612, 1008],
    ['Tabloid', 279.4, 431.8, 792, 1224],
    ['ANSI B', 279.4, 431.8, 792, 1224],
    ['C', 431.8, 558.8, 1224, 1584],
    ['d', 558.8, 863.6, 1584, 2448],
  ])('%s', (name, width, height, wide, high) => {
    const p = paper(name);
    expect(p?.width).toBeCloseTo(width, 9);
    expect(p?.height).toBeCloseTo(height, 9);
    expect(((p?.width ?? 0) * 72) / 25.4).toBeCloseTo(wide, 2);
    expect(((p?.height ?? 0) * 72) / 25.4).toBeCloseTo(high, 2);
  });
  // ISO 216: each size is the one above halved across its long side, and A0 is a square metre, to a millimetre.
  test('the A series halves', () => {
    for (let n = 1; n <= 5; n += 1) {
      expect(paper(`A${n}`)?.height).toBe(paper(`A${n - 1}`)?.width);
      expect(paper(`A${n}`)?.width).toBe(Math.floor((paper(`A${n - 1}`)?.height ?? 0) / 2));
    }
    expect(((paper('A0')?.width ?? 0) * (paper('A0')?.height ?? 0)) / 1e6).toBeCloseTo(1, 3);
  });
  test.each([
    ['210 x 297 mm', 210, 297],
    ['8.5 x 14 in', 215.9, 355.6],
    ['610mm×900mm', 610, 900],
    ['100 x 200', 100, 200],
  ])('%s', (text, width, height) => {
    expect(paper(text)?.width).toBeCloseTo(width, 9);
    expect(paper(text)?.height).toBeCloseTo(height, 9);
  });
  test.each(['', 'A9', 'foolscap', '0 x 100', '-5 x 10', '10 x', '1 x 2 x 3', '200 m x 3'])('none: %s', (text) =>
    expect(paper(text)).toBeNull(),
  );
});
