import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { readJob } from '@fayplate/job';
import { describe, expect, test } from 'vitest';
import { plateFrom } from '../support/from-text.js';

const example = readFileSync(
  join(import.meta.dirname, '..', '..', '..', '..', 'examples', 'thread-inserts.yaml'),
  'utf8',
);
const holesFor = (text: string, face: string) => plateFrom(text).holes.filter((h) => h.part?.face === face);

describe('wire inserts', () => {
  const motor = holesFor(example, 'motor');
  test('two diameters of M8 long, drilled 8.3, tapped 1.299 P larger, to a depth that clears the insert', () => {
    expect(motor).toHaveLength(3);
    for (const h of motor) {
      expect([h.insert, h.diameter, h.thread?.name]).toEqual([16, 8.3, 'M8']);
      expect(h.thread?.major).toBeCloseTo(8 + 1.299038 * 1.25, 6);
      expect(h.fastening?.nominal).toBe(8);
      expect(h.thread?.depth ?? 0).toBeGreaterThanOrEqual(16 + 2 * 1.25);
    }
  });

  test('the bolt engages no more than the insert, in its own diameters', () => {
    const short = plateFrom(example.replace('wire insert: 2 d', 'wire insert: 1 d'));
    const engaged = short.checks.filter((c) => c.id === 'plate-thread' && c.of[0] === 'H4');
    expect(engaged.map((c) => [c.value, c.ok])).toEqual([[1, false]]);
  });

  test('one that is longer than the plate is thick is refused', () =>
    expect(() => plateFrom(example.replace('wire insert: 2 d', 'wire insert: 5 d'))).toThrow(/longer than the plate/));
});

test('a stepped stud is set by one thread and takes its nut on the other', () => {
  for (const h of holesFor(example, 'head')) {
    expect([h.thread?.name, h.diameter]).toEqual(['M10', 8.5]);
    expect([h.fastening?.thread, h.fastening?.nominal]).toEqual(['M12', 12]);
  }
});

test.each([
  ['as: clearance, wire insert: 1 d', /wire inserts in tapped holes only/],
  ['as: tapped, thread: M8, set: M10', /the other thread of a stepped stud only/],
  ['as: set stud, thread: M12, set: M99', /a thread of the tables, such as/],
])('refused: %s', (written, expected) => {
  const read = readJob(example.replace(/as: tapped, thread: M8, wire insert: 2 d, blind: true/, written));
  expect(read.ok ? [] : read.faults.map((f) => f.expected)).toEqual([expect.stringMatching(expected)]);
});
