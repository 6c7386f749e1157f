import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  type Requirement,
  type UnknownId,
  classOf,
  keepsFromYes,
  notKnown,
  unknownClass,
  verdictOf,
} from '../../src/index.js';

const holds: Requirement = {
  id: 'web-between-cuts',
  title: 'web between cuts',
  state: 'holds',
  value: 4,
  limit: 3,
  margin: 1,
  unit: 'mm',
  source: 'a table',
  because: 'there is metal enough',
  cure: null,
};
const fails: Requirement = { ...holds, state: 'fails', value: 2, margin: -1, because: 'H1 is too near H2' };
const ids = Object.keys(unknownClass) as readonly UnknownId[];
const unknown = (id: UnknownId): Requirement => notKnown(id, id, `no ${id} is given`, `write \`${id}\``);
const scraps = ids.filter((id) => unknownClass[id] === 'scrap');
const notes = ids.filter((id) => unknownClass[id] === 'note');

describe('the one answer', () => {
  test.each(scraps)('%s not known is Not yet', (id) => {
    expect(verdictOf([holds, unknown(id)], 'sound').answer).toBe('not yet');
  });
  test.each(notes)('%s not known is no reason against Yes', (id) => {
    expect(verdictOf([holds, unknown(id)], 'sound')).toMatchObject({ answer: 'yes', because: 'sound', first: null });
  });
  test('what fails outweighs what is not known', () => {
    expect(verdictOf([unknown('bore'), holds, fails], 'sound')).toMatchObject({ answer: 'no', first: fails });
  });
  test('but not while readings contradict each other: what fails rests on them', () => {
    const suspect = unknown('reading-suspect');
    expect(verdictOf([fails, unknown('bore'), suspect], 'sound')).toMatchObject({ answer: 'not yet', first: suspect });
  });
  test('names the first that decides, with what settles it and how many more there are', () => {
    const { because } = verdictOf([unknown('bore'), unknown('parallel'), unknown('axis')], 'sound');
    expect(because).toBe('no bore is given; write `bore`. 1 more thing is not known.');
  });
  test('what no table has is taken for the worse', () => {
    expect(classOf({ ...unknown('bore'), id: 'hearsay' })).toBe('scrap');
  });
  test('more that holds, or is a note, changes no answer; more that keeps from Yes never makes it Yes', () => {
    const one = fc.constantFrom(holds, fails, ...ids.map(unknown));
    fc.assert(
      fc.property(fc.array(one), fc.array(one), (some, more) => {
        const before = verdictOf(some, 'sound').answer;
        const after = verdictOf([...some, ...more], 'sound').answer;
        if (!more.some(keepsFromYes)) expect(after).toBe(before);
        else expect(after).not.toBe('yes');
      }),
      { seed: 15 },
    );
  });
});
