import { describe, expect, test } from 'vitest';
import { type Fault, faultLines, readJob } from '../../src/index.js';
import { faultsOf, shop } from '../support.js';

const fault = (more: Partial<Fault>): Fault => ({
  code: 'value',
  line: 1,
  column: 1,
  found: 'x',
  expected: 'y',
  nearest: null,
  path: '',
  file: null,
  ...more,
});

describe('faults in words', () => {
  test('the line, a caret under the spot, what was expected, the near name', () => {
    const text = shop(['over A B = 4 1/8 by rul']);
    expect(faultLines(text, faultsOf(readJob(text)))).toEqual([
      [
        'line 16, column 29 (faces.pump.readings.0): found "rul"',
        '  16 |       - over A B = 4 1/8 by rul',
        '     |                             ^',
        '  expected an instrument of the job: rule, caliper, protractor',
        '  did you mean "rule"?',
      ].join('\n'),
    ]);
  });

  const caretUnder = (line: string, column: number): string => {
    const [, shown = '', caret = ''] = (faultLines(line, [fault({ column })])[0] ?? '').split('\n');
    return Array.from(shown)[caret.indexOf('^')] ?? 'past the end';
  };
  test('the caret stands under the character', () =>
    expect(['a', 'b', 'c'].map((_, i) => caretUnder('abc', i + 1))).toEqual(['a', 'b', 'c']));
  test('past the end of the line', () => expect(caretUnder('abc', 4)).toBe('past the end'));
  test('in a long line only its surroundings are shown', () => {
    const line = `${'x'.repeat(5000)}Q${'x'.repeat(5000)}`;
    expect(caretUnder(line, 5001)).toBe('Q');
    expect((faultLines(line, [fault({ column: 5001 })])[0] ?? '').length).toBeLessThan(400);
  });
  test('wide characters take two cells', () =>
    expect(faultLines('孔😀x', [fault({ column: 3 })])[0]?.split('\n')[2]).toBe('    |     ^'));
  test('carriage returns are not shown', () => expect(faultLines('a\r\nb\r\n', [fault({})])[0]).not.toContain('\r'));
  test('a line that is not there', () => expect(faultLines('a', [fault({ line: 9 })])[0]).toContain('line 9'));
  test('nothing found', () => expect(faultLines('a', [fault({ found: '' })])[0]).toContain('found nothing'));

  test('nothing in a file can steer a terminal', () => {
    const text =
      `job: x\nunits: mm\nfaces: { "\\e[31m\\u202e": { up: ` +
      `"\\e]0;t\\a" }, f\u202e\u200b: {} }\nprint: { "\\r\\n": 1 }\n`;
    const words = faultLines(text, faultsOf(readJob(text))).join('');
    expect(words).toMatch(/name: letters/);
    expect(words.replaceAll('\n', '')).not.toMatch(/[\p{Cc}\p{Zl}\p{Zp}\p{Bidi_Control}\u200b]/u);
  });
});
