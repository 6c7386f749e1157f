import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { readJob } from '@fayplate/job';
import { describe, expect, test } from 'vitest';
import { plateFrom } from '../support/from-text.js';

const example = readFileSync(
  join(import.meta.dirname, '..', '..', '..', '..', 'examples', 'thread-inserts.yaml'),
  'utf8',
);
/** The motor with a dowel of its own at (40, 35) as viewed, 53.15 mm from the register's centre. */
const withDowel = (locate: string): string =>
  example
    .replace('      B1: {', '      D1: { kind: dowel, diameter: 6, stands: 8 }\n      B1: {')
    .replace('      - at B1 =', '      - at D1 = (40, 35) by readout\n      - at B1 =')
    .replace(
      'motor: { register: 80.03, fit: H7, depth: 4 }',
      `motor: { register: 80.03, fit: H7, depth: 4, ${locate} }`,
    );

describe('a register centres, one dowel beside it keeps the part from turning', () => {
  test('its own dowel gets a slot toward the register’s centre', () => {
    const plate = plateFrom(withDowel('dowels: [D1]'));
    const slot = plate.holes.find((h) => h.part?.feature === 'D1');
    const register = plate.bores.find((b) => b.part?.face === 'motor' && b.kind === 'recess');
    expect(slot?.as).toBe('slot');
    const toward = Math.atan2((slot?.y ?? 0) - (register?.y ?? 0), (slot?.x ?? 0) - (register?.x ?? 0));
    expect(Math.sin((slot?.slot?.angle ?? 9) - toward)).toBeCloseTo(0, 9);
    expect(plate.goesOn.get('motor')?.probability).toBeGreaterThan(0.9);
  });

  test('or a round hole, or a new dowel that is reamed at assembly', () => {
    const round = plateFrom(withDowel('dowels: [D1], second: round'));
    expect(round.holes.find((h) => h.part?.feature === 'D1')?.as).toBe('dowel');
    const fresh = plateFrom(example.replace('fit: H7, depth: 4 }', 'fit: H7, depth: 4, dowels: 1, diameter: 6 }'));
    expect(fresh.holes.filter((h) => h.as === 'dowel' && h.part === null)).toHaveLength(1);
  });

  test.each([
    ['dowels: 2, diameter: 6', /one dowel beside a register, such as dowels: \[D1\]/],
    ['dowels: [D1, B1]', /a second one would fight it/],
    ['dowels: 1', /`diameter` of the new dowel as well/],
    ['dowels: [D2]', /a dowel of motor/],
    ['dowels: [D1], diameter: 6', /the face's own dowel has its own/],
    ['second: slot', /no such key beside `register`/],
  ])('refused: %s', (locate, expected) => {
    const read = readJob(withDowel(locate));
    expect(read.ok ? [] : read.faults.map((f) => f.expected)).toEqual([expect.stringMatching(expected)]);
  });
});
