import { expect, test } from 'vitest';
import { readJob } from '../../src/index.js';
import { faultsOf, jobOf } from '../support.js';

const job = (locate: string): string =>
  `job: x\nunits: in\nfaces:\n  a: { features: { P: { kind: hole } } }\n  b: { centre: S, features: { S: { kind: ` +
  `spigot }, Q: { kind: hole } } }\nplate:\n  between: [a, b]\n  thickness: 1\n  locate: ${locate}\n`;

test('a register to be set by indicator and dowelled', () => {
  const read = jobOf(
    job('{ b: { register: 2.4, depth: 1/4, set: by indicator, reading: 0.002, dowels: 2, diameter: 1/4 } }'),
  );
  expect(read.plate?.locate.get('b')).toEqual({
    as: 'new dowels',
    count: 2,
    diameter: 6.35,
    set: {
      reading: expect.closeTo(0.0508, 9),
      register: { diameter: { value: expect.closeTo(60.96, 9), plusMinus: null }, depth: 6.35 },
    },
  });
  expect(jobOf(job('{ b: { set: by indicator, dowels: 3, diameter: 6 mm } }')).plate?.locate.get('b')).toMatchObject({
    as: 'new dowels',
    count: 3,
    set: { reading: null, register: null },
  });
});

test.each([
  ['{ b: { register: 2.4, set: by indicator } }', /two new dowels or more as well/],
  ['{ b: { set: by indicator, dowels: 1, diameter: 1/4 } }', /two new dowels or more as well/],
  ['{ b: { set: by indicator, dowels: [Q] } }', /two new dowels or more as well/],
  ['{ b: { set: by eye, dowels: 2, diameter: 1/4 } }', /by indicator/],
  ['{ b: { register: 2.4, reading: 0.002 } }', /no such key without `set: by indicator`/],
  ['{ b: { register: 2.4, fit: H7, set: by indicator, dowels: 2, diameter: 1/4 } }', /no such key beside `set`/],
  ['{ a: { register: 2.4, set: by indicator, dowels: 2, diameter: 1/4 } }', /`centre` of a as well/],
])('%s is refused', (locate, expected) =>
  expect(faultsOf(readJob(job(locate))).map((f) => f.expected)).toContainEqual(expect.stringMatching(expected)),
);
