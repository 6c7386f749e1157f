import fc from 'fast-check';
import { mutated } from '../../../../packages/job/test/mutate.js';

/** What a slip of the finger, of the eye or of the mind makes of a number. */
const numbers: readonly ((written: string) => string)[] = [
  () => '0',
  () => '1',
  () => '7 1/2',
  () => '1e9',
  () => '0.000001',
  () => '99999 mm',
  () => '360',
  (n) => `-${n}`,
  (n) => `${n}${n}`,
  (n) => n.replace(/(\d)(\d)/, '$2$1'),
  (n) => n.replace('.', ''),
  (n) => String(Number(n) * 10),
  (n) => String(Number(n) / 10),
  (n) => String(Number(n) * 25.4),
  (n) => String(Number(n) / 25.4),
  (n) => String(Number(n) * 1.02),
  (n) => String(Number(n) * 2),
  (n) => `${n} ± 0`,
];

/** Words that may stand where others stand. */
const families: readonly (readonly string[])[] = [
  ['stud', 'hole', 'dowel', 'bore', 'spigot', 'boss'],
  ['over', 'between', 'centres', 'step', 'wall', 'aside over'],
  ['clearance', 'tapped', 'none'],
  ['close', 'normal', 'loose'],
  ['counterbored', 'above', 'sunk'],
  ['follow', 'round', 'rectangle', 'like: pump'],
  ['from outside', 'from behind'],
  ['measured', 'intended'],
  ['in', 'mm'],
  ['through', 'A', 'B'],
  ['M10', 'M4', 'M64', '3/8-16 UNC', '2 BA', 'M10x1.25'],
  ['aluminium', 'steel', 'cast iron', 'wood'],
  ['A4', 'A3', 'Letter', 'A0', 'roll 610 mm', 'single', '60 x 60 mm'],
];

type Change = {
  readonly kind: 'number' | 'word' | 'name' | 'drop line' | 'repeat line';
  readonly at: number;
  readonly to: number;
};

const share = fc.double({ min: 0, max: 1, noNaN: true, maxExcluded: true });
const change: fc.Arbitrary<Change> = fc.record({
  kind: fc.constantFrom('number', 'number', 'word', 'name', 'name', 'drop line', 'repeat line'),
  at: share,
  to: share,
});

const pick = <T>(list: readonly T[], at: number): T | undefined => list[Math.floor(at * list.length)];

const replaceOne = (text: string, pattern: RegExp, at: number, to: (found: string) => string): string => {
  const found = pick([...text.matchAll(pattern)], at);
  return found === undefined
    ? text
    : text.slice(0, found.index) + to(found[0]) + text.slice(found.index + found[0].length);
};

const applied = (text: string, { kind, at, to }: Change): string => {
  if (kind === 'number') return replaceOne(text, /\d+(?:\.\d+)?/g, at, pick(numbers, to) ?? String);
  if (kind === 'word') {
    const family = pick(families, to) ?? [];
    return replaceOne(
      text,
      new RegExp(`\\b(?:${family.join('|')})\\b`, 'g'),
      at,
      (word) =>
        pick(
          family.filter((w) => w !== word),
          (at * 97) % 1,
        ) ?? word,
    );
  }
  if (kind === 'name') {
    const names = [...new Set(text.match(/\b[A-Z]\d{1,2}\b/g))];
    return replaceOne(text, /\b[A-Z]\d{1,2}\b/g, at, (name) => pick(names, to) ?? name);
  }
  const lines = text.split('\n');
  const n = Math.floor(at * lines.length);
  return kind === 'drop line'
    ? lines.toSpliced(n, 1).join('\n')
    : lines.toSpliced(Math.floor(to * lines.length), 0, lines[n] ?? '').join('\n');
};

/**
 * One of the jobs with one to three slips in what it says; most of them still read. One in eight is also damaged as a
 * text.
 */
export const slipped = (jobs: readonly string[]): fc.Arbitrary<string> => {
  const slips = fc
    .tuple(fc.constantFrom(...jobs), fc.array(change, { minLength: 1, maxLength: 3 }))
    .map(([text, changes]) => changes.reduce(applied, text));
  return fc.oneof({ weight: 7, arbitrary: slips }, { weight: 1, arbitrary: slips.chain((text) => mutated([text])) });
};
