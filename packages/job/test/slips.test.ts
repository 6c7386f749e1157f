import { describe, expect, test } from 'vitest';
import { faultLines, readJob } from '../src/index.js';
import { faultsOf, shop } from './support.js';

const sound = shop(['over A B = 40 by rule', 'over B C = 50 by rule']);
const slipped = (from: string, to: string): string => {
  const text = sound.replace(from, to);
  if (text === sound) throw new Error(`nothing slipped: ${from}`);
  return text;
};
const told = (text: string): readonly string[] => faultsOf(readJob(text)).map((f) => f.expected);
const plate = `${sound}  motor:\n    features: { M: { kind: hole } }\nplate:\n  between: [pump, motor]\n  thickness: 20\n`;

describe('a slip of the pen is told once, where it is, in the words of the job file', () => {
  test.each([
    [
      'a reading without its dash',
      slipped('      - over B C', '      over B C'),
      /^a dash and a space before each reading/,
    ],
    [
      'a dash without its space',
      slipped('      - over B C', '      -over B C'),
      /^a dash and a space before each reading/,
    ],
    [
      'a colon for the =',
      slipped('over B C = 50', 'over B C: 50'),
      /^an = before the value, not a colon: over B C = 50 by rule$/,
    ],
    [
      'a bracket left open',
      `${plate}  outline: { shape: follow, margin: 12\n  limits: { web: 3 }\n`,
      /^a closing \} on this line/,
    ],
    ['a list left open', plate.replace('[pump, motor]', '[pump, motor'), /^a closing \] on this line/],
  ])('%s', (_, text, expected) => {
    expect(told(text)).toEqual([expect.stringMatching(expected)]);
  });

  test('a bracket left open is shown where it opens', () => {
    const text = `${plate}  outline: { shape: follow, margin: 12\n  limits: { web: 3 }\n`;
    const [, line = '', caret = ''] = faultLines(text, faultsOf(readJob(text)))
      .join('\n')
      .split('\n');
    expect(line[caret.indexOf('^')]).toBe('{');
    expect(line).toContain('outline: {');
  });

  test('nothing is said in the words of YAML', () => {
    for (const text of [slipped('      - over B C', '\t- over B C'), slipped('      - over B C', '      over B C')])
      expect(told(text).join(' ')).not.toMatch(/implicit|mapping|scalar|flow/i);
  });

  test('a register that cannot be read is not said to be missing', () => {
    const text = `${plate.replace('    features: { M: { kind: hole } }', '    centre: R\n    features: { R: { kind: bore, diameter: 50 }, M: { kind: hole } }')}  locate:\n    motor: { register: –4.5, depth: 3 }\n`;
    expect(told(text)).toEqual([expect.stringMatching(/^a minus sign, not a dash: -4.5/)]);
  });
});
