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
    const text =
      `${plate.replace('    features: { M: { kind: hole } }', '    centre: R\n    features: { R: { kind: bore, diameter: 50 }, M: { kind: hole } }')} ` +
      ` locate:\n    motor: { register: –4.5, depth: 3 }\n`;
    expect(told(text)).toEqual([expect.stringMatching(/^a minus sign, not a dash: -4.5/)]);
  });
});

/** One slip tells of itself and hides nothing that stands after it: a wrong unit, far below, is told as well. */
describe('no slip hides another fault', () => {
  const below = (text: string): string => `${text}print: { margin: 8 furlongs }\n`;
  const unit = /one of the units/;
  const dashless = shop(['over A B = 40 by rule', 'over B C = 50 by rule', 'over C D = 60 by rule']);
  test.each([
    ['a tab', slipped('  rule: ± 0.5 mm', '\trule: ± 0.5 mm'), [/not a tab/]],
    ['a tab before a reading', slipped('      - over B C', '\t\t\t- over B C'), [/not a tab/]],
    ['tabs all over', sound.replace(/^( {2})+/gm, (lead) => '\t'.repeat(lead.length / 2)), Array(13).fill(/not a tab/)],
    ['curly quotes', slipped('± 0.5 mm', '“± 0.5 mm”'), [/straight quotes, or none: "± 0.5 mm"/]],
    [
      'curly quotes round a colon',
      slipped('diameter: 60 mm ± 0.02 mm', 'clock: “9: 30”'),
      [/straight quotes/, /clock position/],
    ],
    ['a missing dash', slipped('      - over B C', '        over B C'), [/^a dash and a space/]],
    ['a missing dash at the dash', slipped('      - over B C', '      over B C'), [/^a dash and a space/]],
    ['no dash at all', dashless.replaceAll('- over', 'over'), Array(3).fill(/^a dash and a space/)],
    ['an open bracket', slipped('diameter: 60 mm ± 0.02 mm }', 'diameter: 60 mm ± 0.02 mm'), [/^a closing \}/]],
    ['a letter o', slipped('= 50', '= 5o'), [/the figure 0, not the letter o: 50/]],
    ['a comma for a point', slipped('= 50', '= 50, 5'), [/a decimal point, not a comma: 50.5/]],
  ] as const)('%s', (_, text, first) => {
    expect(told(below(text))).toEqual([...first, unit].map((r) => expect.stringMatching(r as RegExp)));
  });

  test('what follows a mended line keeps its place', () => {
    const text = below(slipped('      - over B C', '      over B C').replace('= 50 by', '= 5o by'));
    const faults = faultsOf(readJob(text));
    const line = text.split('\n').findIndex((l) => l.includes('5o')) + 1;
    expect(faults.map((f) => [f.line, f.column])).toEqual([
      [line, 7],
      [line, 18],
      [text.split('\n').length - 1, 18],
    ]);
  });
});

describe('one misspelt key sets off no cascade', () => {
  const many = shop(['over A B = 40 by rule', 'over B C = 50 by rule', 'over C D = 60 by rule']);
  test.each([
    ['instruments', 'instrments'],
    ['units', 'unit'],
    ['faces', 'fases'],
    ['features', 'feature'],
    ['readings', 'reading'],
    ['A: { kind: stud, ', 'A: { knd: stud, '],
    ['A: { kind: stud, ', 'A: { kind:stud, '],
    ['      A: {', '      AA: {'],
    ['  rule:', '  rul:'],
  ])('%s', (from, to) => {
    const faults = faultsOf(readJob(many.replace(from, to)));
    expect(faults.map((f) => f.expected)).toHaveLength(1);
  });
  test('sections that no other name is near to stay unknown', () =>
    expect(told(`${many}zebra: 3\n`)).toEqual([expect.stringMatching(/^one of the keys/)]));
});
