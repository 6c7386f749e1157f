import type { TableBlock } from '@fayplate/core';
import fc from 'fast-check';
import stringWidth from 'string-width';
import { describe, expect, test } from 'vitest';
import { tableLines, widthOf, wrap } from '../../src/terminal/table.js';
import { terminalText } from '../../src/terminal/report.js';

const table: TableBlock = {
  kind: 'table',
  caption: null,
  columns: [
    { title: 'feature', align: 'left' },
    { title: 'X mm', align: 'point' },
    { title: 'what it is', align: 'left' },
  ],
  rows: [
    ['P1', '1.25', 'a stud'],
    ['P10', '-120.5', 'a hole with a rather long description that has to be broken'],
    ['水', '', ''],
  ],
};

describe('tables on a terminal', () => {
  test('numbers stand on their decimal point', () => {
    const lines = tableLines(table, 100);
    expect(lines[2]?.indexOf('.')).toBe(lines[3]?.indexOf('.'));
  });

  test('no line is wider than the terminal while the words can give way', () => {
    fc.assert(
      fc.property(fc.integer({ min: 45, max: 120 }), (width) => {
        for (const line of tableLines(table, width)) expect(widthOf(line)).toBeLessThanOrEqual(width);
      }),
      { seed: 8, numRuns: 50 },
    );
  });

  test('a text is as wide as a second library says (string-width)', () => {
    for (const text of ['⌀ 10.3 ± 0.05 mm', '水の上', 'é 1½″', 'e\u0301', '🔩 nut', 'ﬁt', 'Ω µ σ ✓ ➜', 'שלום', '한국'])
      expect([text, widthOf(text)]).toEqual([text, stringWidth(text)]);
    expect(widthOf('水の上')).not.toBe('水の上'.length);
    // Printable Latin, but for the soft hyphen, on which terminals differ.
    const latin = Array.from({ length: 0x300 - 0x20 }, (_, i) => 0x20 + i).filter(
      (c) => (c < 0x7f || c > 0x9f) && c !== 0xad,
    );
    for (const code of latin)
      expect([code, widthOf(String.fromCodePoint(code))]).toEqual([code, stringWidth(String.fromCodePoint(code))]);
  });

  test('wrapping keeps every word in order', () => {
    fc.assert(
      fc.property(
        fc.array(fc.stringMatching(/^[a-z]{1,12}$/), { minLength: 1 }),
        fc.integer({ min: 5, max: 60 }),
        (words, width) => {
          expect(wrap(words.join(' '), width).join(' ').split(' ')).toEqual(words);
        },
      ),
      { seed: 9, numRuns: 200 },
    );
  });

  test('a name cannot steer the terminal', () => {
    const text = terminalText([{ kind: 'paragraph', text: 'a\u001b[31mb\u202Ec' }], { columns: 80, colour: false });
    expect(text).toBe('a[U+001B][31mb[U+202E]c\n');
  });

  test('colour is never the only sign: the words say yes or no', () => {
    const report = [{ kind: 'verdict', ok: false, text: 'it does not fit.' } as const];
    expect(terminalText(report, { columns: 80, colour: false })).toBe('No: it does not fit.\n');
    expect(terminalText(report, { columns: 80, colour: true })).toContain('No: it does not fit.');
    const idle = [{ kind: 'verdict', ok: false, needed: false, text: 'No layout fits.' } as const];
    expect(terminalText(idle, { columns: 80, colour: false })).toBe('– No layout fits.\n');
  });
});
