import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { wrapText } from '../../src/index.js';
import { letters } from '../fonts.js';

const word = fc.stringMatching(/^[A-Za-z0-9.,;:+-]{1,12}$/);
const text = fc.array(word, { minLength: 1, maxLength: 30 }).map((w) => w.join(' '));
const width = (line: string): number => letters.width(line, 3, 'regular');

describe('a text in lines', () => {
  test('no line is too wide, none could have taken the next word, and nothing is lost', () => {
    fc.assert(
      fc.property(text, fc.double({ min: 40, max: 300, noNaN: true }), (words, room) => {
        const lines = wrapText(words, room, 3, 'regular', letters);
        expect(lines.join(' ')).toBe(words);
        for (const [i, line] of lines.entries()) {
          expect(width(line)).toBeLessThanOrEqual(room + 1e-9);
          const next = lines[i + 1]?.split(' ')[0];
          if (next !== undefined) expect(width(`${line} ${next}`)).toBeGreaterThan(room - 1e-9);
        }
      }),
      { seed: 61, numRuns: 200 },
    );
  });

  test('letters beyond the plain ones break at the same places as plain ones of the same width', () => {
    const plain = 'the bore and the rim of the pump are as they were';
    const lines = wrapText(plain, 60, 3, 'regular', letters);
    expect(lines.length).toBeGreaterThan(1);
    expect(wrapText(`${plain} ±`, 60, 3, 'regular', letters).slice(0, lines.length - 1)).toEqual(lines.slice(0, -1));
  });

  test('a word wider than the line is cut, and still nothing is lost', () => {
    const lines = wrapText(`a ${'m'.repeat(40)} b`, 30, 3, 'regular', letters);
    for (const line of lines) expect(width(line)).toBeLessThanOrEqual(30);
    expect(lines.join('').replaceAll(' ', '')).toBe(`a${'m'.repeat(40)}b`);
  });

  test.each([
    'the farthest hole can still be off by ± 0.40 mm',
    'it stands out of the face by 141.71 mm',
    'odds of one in a few, say 995 in 1000',
    'the limit holds at ≥ 0.118 in',
  ])('%s: no line ends between what is read together', (words) => {
    for (let room = 25; room < 120; room += 1) {
      const lines = wrapText(words, room, 3, 'regular', letters);
      expect(lines.join(' ')).toBe(words);
      expect(
        lines.filter(
          (l, i) =>
            /[±≥]$/.test(l) ||
            (/\d$/.test(l) && /^(?:mm|in)\b/.test(lines[i + 1] ?? '')) ||
            (l.endsWith(' in') && /^\d/.test(lines[i + 1] ?? '')),
        ),
      ).toEqual([]);
    }
  });

  test('what is read together is parted where it is wider than the line', () => {
    const lines = wrapText('± 0.40 mm', 12, 3, 'regular', letters);
    expect(lines.join(' ')).toBe('± 0.40 mm');
    for (const line of lines) expect(width(line)).toBeLessThanOrEqual(12);
  });
});
