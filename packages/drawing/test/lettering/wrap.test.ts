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
});
