import opentype from 'opentype.js';
import { describe, expect, test } from 'vitest';
import { faceOf } from '../../src/lettering/font.js';
import { trimmed } from '../../src/lettering/tables.js';
import { fontBytes } from '../fonts.js';

/** The font with its last map of characters forgotten: what remains is of format 4, which is left to the library. */
const withoutLastMap = (bytes: ArrayBuffer): ArrayBuffer => {
  const view = new DataView(bytes.slice(0));
  const entry =
    Array.from({ length: view.getUint16(4) }, (_, i) => 12 + 16 * i).find((at) => view.getUint32(at) === 0x636d_6170) ??
    Number.NaN;
  const cmap = view.getUint32(entry + 8);
  view.setUint16(cmap + 2, view.getUint16(cmap + 2) - 1);
  return view.buffer;
};

describe.each(['DejaVuSansCondensed', 'DejaVuSansCondensed-Bold'])('%s', (name) => {
  const bytes = fontBytes(name);

  test('every character has the glyph that the library finds in the whole font', () => {
    const { idOf } = trimmed(bytes);
    const whole = opentype.parse(bytes, { lowMemory: true });
    let drawn = 0;
    for (let code = 0; code < 0x2_0000; code++) {
      const id = whole.charToGlyph(String.fromCodePoint(code)).index;
      if (idOf?.(code) !== id) expect([code, idOf?.(code)]).toEqual([code, id]);
      if (id !== 0) drawn++;
    }
    expect(drawn).toBeGreaterThan(5000);
  });

  test('a map of another kind is left to the library, and letters come out the same', () => {
    const other = withoutLastMap(bytes);
    expect(trimmed(other).idOf).toBeNull();
    const [a, b] = [faceOf(bytes), faceOf(other)];
    expect(b.capital).toBe(a.capital);
    for (const character of 'Aß±⌀→½漢') {
      expect(b.idOf(character)).toBe(a.idOf(character));
      expect(b.glyph(b.idOf(character))).toEqual(a.glyph(a.idOf(character)));
      expect(b.kern(b.idOf('A'), b.idOf('V'))).toBe(a.kern(a.idOf('A'), a.idOf('V')));
    }
  });
});

test('bytes that are no font are refused', () => {
  expect(() => faceOf(new ArrayBuffer(40))).toThrow('Unsupported OpenType signature');
});
