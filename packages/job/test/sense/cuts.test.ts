import { expect, test } from 'vitest';
import { readJob } from '../../src/index.js';
import { faultsOf, jobOf } from '../support.js';

const job = (cut: string): string =>
  `job: x\nunits: in\nfaces:\n  a: { features: { P: { kind: hole } } }\n  b: { features: { Q: { kind: hole } } ` +
  `}\nplate:\n  between: [a, b]\n  thickness: 1\n  cuts:\n    c: ${cut}\n`;

test('a cut is read in its own units, and what is not said is filled in', () =>
  expect(jobOf(job('{ hole: 8 mm, at: [1/2, -1], why: drain }')).plate?.cuts).toEqual([
    {
      name: 'c',
      what: 'hole',
      width: 8,
      length: 0,
      angle: 0,
      at: { x: 12.7, y: -25.4 },
      face: 'a',
      depth: null,
      side: 'A',
      why: 'drain',
    },
  ]));

test.each([
  ['{ at: P }', /a `hole`, a `slot`, a `pocket` or a `notch`/],
  ['{ hole: 1/4, slot: 1/4, length: 1, at: P }', /one of hole, slot, pocket and notch/],
  ['{ slot: 1/4, at: P }', /`length` as well/],
  ['{ pocket: 1, at: P }', /`depth` as well/],
  ['{ hole: 1/4, length: 1, at: P }', /of a slot only/],
  ['{ hole: 1/4, angle: 10 deg, at: P }', /of a slot, of a notch, or of a pocket/],
  ['{ pocket: 1, depth: 1/4, corner: 1/8, at: P }', /"corner" of a notch, or of a pocket/],
  ['{ pocket: [2, 1], corner: 0.6, at: P }', /no more than half of the shorter side/],
  ['{ notch: 1, corner: 0.6, at: P }', /no more than half of the width/],
  ['{ pocket: [2, 1, 1], at: P }', /two sizes, such as/],
  ['{ pocket: [2, wide], at: P }', /a number such as/],
  ['{ hole: 1/4, at: Q }', /a feature of a: P/],
  ['{ hole: 1/4, at: Q, face: d }', /one of the two faces/],
  ['{ hole: 1/4, at: "(1, 2" }', /a place in brackets/],
  ['{ hole: 1/4 }', /`at` as well/],
  ['{ holle: 1/4, at: P }', /one of the keys/],
])('%s is refused', (cut, expected) =>
  expect(faultsOf(readJob(job(cut))).map((f) => f.expected)).toContainEqual(expect.stringMatching(expected)),
);

test('one at the other face’s feature', () =>
  expect(jobOf(job('{ hole: 1/4, at: Q, face: b }')).plate?.cuts[0]?.side).toBe('B'));

test('a pocket with straight sides has a corner that an end mill reaches, and goes through where no depth is said', () =>
  expect(jobOf(job('{ pocket: [2, 1], angle: 30 deg, at: P }')).plate?.cuts[0]).toMatchObject({
    what: 'pocket',
    length: 50.8,
    width: 25.4,
    corner: 3,
    angle: Math.PI / 6,
    depth: null,
  }));

test('a notch is round at its end, and opens at the nearest edge, where nothing else is said', () =>
  expect(jobOf(job('{ notch: 20 mm, at: P, depth: 4 mm, side: B }')).plate?.cuts[0]).toMatchObject({
    what: 'notch',
    width: 20,
    length: 0,
    corner: 10,
    angle: null,
    depth: 4,
    side: 'B',
  }));
