import { expect, test } from 'vitest';
import { readJob } from '../../src/index.js';
import { faultsOf, jobOf } from '../support.js';

const job = (machine: string): string =>
  `job: x\nunits: mm\nfaces:\n  a: { features: { P: { kind: hole } } }\nmachine: ${machine}\n`;

test('taps, a vice, the width of clamps and a rotary table', () =>
  expect(
    jobOf(job('{ taps: [M8, 3/8-16 UNC], vice: { opens: 4 in }, clamp width: 30, rotary table: "0° 5\'" }')).machine,
  ).toMatchObject({
    taps: ['M8', '3/8-16 UNC'],
    vice: { opens: 101.6, jaws: null },
    clampWidth: 30,
    rotaryTable: expect.closeTo(Math.PI / 2160, 12),
  }));

test.each([
  ['{ taps: [M8, M8.5] }', /a thread of the tables such as M8/],
  ['{ taps: M8 }', /a list of threads/],
  ['{ vice: 120 }', /a vice such as \{ opens/],
  ['{ vice: { jaws: 120 } }', /`opens`/],
  ['{ rotary table: 0 deg }', /an angle above zero/],
  ['{ clamp width: -3 }', /a length above zero/],
])('%s is refused', (machine, expected) =>
  expect(faultsOf(readJob(job(machine))).map((f) => f.expected)).toContainEqual(expect.stringMatching(expected)),
);
