import { expect, test } from 'vitest';
import { readJob } from '../../src/index.js';
import { faultsOf, shop } from '../support.js';

const codesOf = (text: string): readonly string[] => faultsOf(readJob(text)).map((f) => f.code);
const sound = shop(['over A B = 40 by rule']);
const slipped = (from: string | RegExp, to: string): string => sound.replace(from, to);

/** The words of a fault may be put better; its code is what a program goes by. */
test.each([
  ['a value', slipped('± 0.5 mm', '± 0,5 mm'), ['value']],
  ['a missing key', slipped(/^job: .*\n/, ''), ['missing']],
  ['a feature that is not there', slipped('over A B', 'over A Q'), ['unknown-name']],
  ['an instrument that is not there', slipped('by rule', 'by eye'), ['unknown-name']],
  ['a kind that is not there', slipped('over A', 'ovver A'), ['unknown-kind']],
  ['a feature too few', slipped('over A B', 'over A'), ['features']],
  ['a reading without ±', slipped(' by rule', ''), ['no-plus-minus']],
  ['a length by a protractor', slipped('by rule', 'by protractor'), ['wrong-instrument']],
  ['a feature twice', slipped('over A B', 'over A A'), ['twice']],
  ['a rim of no diameter', slipped('A: { kind: stud, diameter: 8 mm }', 'A: { kind: stud }'), ['no-diameter']],
  ['an alias', slipped('± 0.5 mm', '*a'), ['alias']],
  ['another encoding', slipped('± 0.5 mm', '\ufffd 0.5 mm'), ['file']],
  ['a bracket', slipped('diameter: 60 mm ± 0.02 mm }', 'diameter: 60 mm ± 0.02 mm'), ['syntax']],
  ['nothing', sound, []],
])('%s', (_, text, codes) => expect(codesOf(text)).toEqual(codes));

test('a warning has one as well', () => {
  const read = readJob(shop(['over A B = 40 by rule', 'over A B = 40 by rule']));
  expect(read.ok ? read.warnings.map((w) => w.code) : []).toContain('unused-instrument');
});
