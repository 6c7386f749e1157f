import { describe, expect, test } from 'vitest';
import { readJob } from '../../src/index.js';

const sound = `job: Fan on a post
units: mm
instruments:
  caliper: ± 0.04
faces:
  fan:
    centre: bore
    up: F1
    features:
      bore: { kind: bore, diameter: 40 }
      F1: { kind: hole, diameter: 6.6, clock: 12 }
      F2: { kind: hole, diameter: 6.6, clock: 4 }
    readings:
    - between F1 bore = 16.69 by caliper
    - between F2 bore = 16.71 by caliper
  post:
    centre: P
    features:
      P: { kind: bore, diameter: 50 }
    readings:
      - dia P = 50.02 by caliper
`;

/** Line, and what was found and expected there, of each fault. */
const faultsOf = (text: string): readonly (readonly [line: number, found: string, expected: string])[] => {
  const read = readJob(text);
  return read.ok ? [] : read.faults.map((f) => [f.line, f.found, f.expected] as const);
};
const changed = (...pairs: readonly (readonly [string, string])[]): string =>
  pairs.reduce((text, [from, to]) => {
    if (!text.includes(from)) throw new Error(`no ${from}`);
    return text.replace(from, () => to);
  }, sound);
/** A slip of another kind in the last lines, which no earlier one may hide. */
const last = ['    centre: P\n', '    center: P\n'] as const;

describe('a line that does not stand or read as a name', () => {
  test('the sound file has no fault', () => expect(faultsOf(sound)).toEqual([]));

  test.each([
    ['a colon left out', ['    up: F1', '    up F1'], 8, /^a colon and a space after the name: up: F1$/],
    ['the space behind it left out', ['units: mm', 'units:mm'], 2, /^a colon and a space after the name: units: mm$/],
    ['a colon left out of the first line', ['job: Fan', 'job Fan'], 1, /: job: Fan on a post$/],
    [
      'a colon left out of a section',
      ['    features:\n      bore', '    features\n      bore'],
      9,
      /^a colon after the name: features:$/,
    ],
    ['a line a space to the left', ['      F1: {', '     F1: {'], 11, /under the others of its section$/],
    ['a line a space to the right', ['    up: F1', '     up: F1'], 8, /under the others of its section$/],
    [
      'a reading beside the others',
      ['    - between F2', '      - between F2'],
      15,
      /under the others of its section|a dash and a space/,
    ],
    ['spaces of another width', ['    up: F1', '\u00a0\u00a0\u00a0\u00a0up: F1'], 8, /^ordinary spaces at the start/],
    ['a quote left open', ['job: Fan', 'job: "Fan'], 1, /^a closing quote \("\) on the same line$/],
    [
      'a quote left open in brackets',
      ['{ kind: bore, diameter: 40', "{ kind: 'bore, diameter: 40"],
      10,
      /closing quote \('\)/,
    ],
  ] as const)('%s is one fault at its place, and hides none that follows', (_, slip, line, expected) => {
    const [first, ...rest] = faultsOf(changed(slip, last));
    expect(first?.[0]).toBe(line);
    expect(first?.[2]).toMatch(expected);
    expect(rest.map(([at, found]) => [at, found])).toEqual([[17, 'center']]);
  });

  test('spaces of another width all through are told together, and that there are more', () => {
    const found = faultsOf(sound.replaceAll('\n    ', '\n\u00a0\u00a0\u00a0\u00a0'));
    expect(found.length).toBeGreaterThan(5);
    for (const [, , expected] of found) expect(expected).toMatch(/^ordinary spaces|^the syntax above/);
  });

  test('a text within brackets or under a block mark is left as it is', () => {
    expect(faultsOf(changed(['{ kind: bore, diameter: 40 }', '{ kind: bore,\n        diameter: 40 }']))).toEqual([]);
    const folded = changed(['job: Fan on a post', 'job: >-\n  Fan on\n  a post'], ['    up: F1', '    up F1']);
    expect(faultsOf(folded).map(([line]) => line)).toEqual([10]);
  });
});
