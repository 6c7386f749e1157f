import { describe, expect, test } from 'vitest';
import { letterRanges } from '../../src/lettering/face.js';
import { fontOf } from '../../src/lettering/font.js';
import { packOutlines } from '../../src/lettering/outlines/pack.js';
import { bytesOf, folded, readerOf } from '../../src/lettering/outlines/streams.js';
import { unpackOutlines } from '../../src/lettering/outlines/unpack.js';
import { letteringFrom } from '../../src/index.js';
import { fontBytes, letters } from '../fonts.js';

const fonts = ['DejaVuSansCondensed', 'DejaVuSansCondensed-Bold'] as const;
const packed = fonts.map((name) => packOutlines(fontBytes(name)));
const codes = letterRanges.flatMap(([from, to]) => Array.from({ length: to - from + 1 }, (_, i) => from + i));

describe.each(fonts.map((name, i) => [name, packed[i] ?? new Uint8Array()] as const))('%s', (name, bytes) => {
  const font = fontOf(fontBytes(name));
  const outlines = unpackOutlines(bytes);
  const ids = [...new Set(codes.map(font.idOf))].filter((id) => id !== 0);

  test('every letter has the glyph, the width and the outline of the font, to the last digit', () => {
    expect(codes.filter((code) => outlines.idOf(code) !== font.idOf(code))).toEqual([]);
    expect(ids.length).toBeGreaterThan(2000);
    for (const id of ids) expect(outlines.glyph(id)).toEqual(font.glyph(id));
    // A value that must fail: the next glyph's outline.
    const [a = 0, b = 0] = 'AB'.split('').map((c) => font.idOf(c.codePointAt(0) ?? 0));
    expect(outlines.glyph(a)).not.toEqual(font.glyph(b));
  });

  test('every pair of letters is kerned as in the font', () => {
    const plain = ids.slice(0, 400);
    let kerned = 0;
    for (const left of plain)
      for (const right of plain) {
        const by = font.kern(left, right);
        if (outlines.kern(left, right) !== by)
          expect([left, right, outlines.kern(left, right)]).toEqual([left, right, by]);
        if (by !== 0) kerned++;
      }
    expect(kerned).toBeGreaterThan(300);
  });

  test('bytes cut short are refused', () => {
    expect(() => unpackOutlines(bytes.subarray(0, 5))).toThrow(RangeError);
  });
});

test('a text is laid alike from the fonts and from their outlines, and what is missing is the same', () => {
  const [regular = new Uint8Array(), bold = new Uint8Array()] = packed;
  const from = letteringFrom({ regular: () => regular, bold: () => bold });
  for (const weight of ['regular', 'bold'] as const)
    for (const text of ['AVATAR 3/8-16 UNC', 'Плита ± 0,05 ⌀', 'Ø½″ ✓ →', '漢字 שלום']) {
      const laid = from.lay(text, 2.5, weight);
      expect(laid).toEqual(letters.lay(text, 2.5, weight));
      for (const { id } of laid.glyphs) expect(from.glyph(id, weight)).toEqual(letters.glyph(id, weight));
    }
});

test('numbers of any size go through a stream and back', () => {
  const numbers = [0, -1, 1, 63, -64, 64, 127, 128, -129, 16_383, 16_384, -2_000_000];
  const reader = readerOf(Uint8Array.from(numbers.flatMap((n) => bytesOf(folded(n)))));
  expect(numbers.map(() => reader.signed())).toEqual(numbers);
  expect(reader.ended()).toBe(true);
  expect(() => reader.next()).toThrow(RangeError);
});
