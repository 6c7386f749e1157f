import { polar } from '@fayplate/core';
import { expect, test } from 'vitest';
import { type World, answer } from '../src/index.js';

const none = () => Promise.reject(new Error('not needed'));
const world: World = { lettering: none, sheets: none, press: none };

/**
 * Six places of a ring of 12, each read to the spigot and to the next: without clocks other arrangements fit as well.
 */
const places = [0, 1, 3, 7, 9, 10].map((k) => polar(80, Math.PI / 2 - (k * Math.PI) / 6));
const apart = (a: number, b: number): number =>
  Math.hypot((places[a]?.x ?? 0) - (places[b]?.x ?? 0), (places[a]?.y ?? 0) - (places[b]?.y ?? 0));
const job = (slip: number): string =>
  [
    'job: Ring',
    'units: mm',
    'faces:',
    '  pump:',
    '    viewed: from outside',
    '    centre: S',
    '    up: P1',
    '    features:',
    '      S: { kind: spigot, diameter: 60 ± 0.02 }',
    ...places.map(
      (_, i) =>
        `      P${i + 1}: { kind: stud, diameter: 10 ± ` +
        `0.02${slip === 0 ? '' : `, clock: ${[12, 1, 3, 7, 9, 10][i]}`} }`,
    ),
    '    readings:',
    ...places.map((_, i) => `      - between P${i + 1} S = 45 ± 0.1`),
    ...places.map(
      (_, i) =>
        `      - over P${i + 1} P${((i + 1) % 6) + 1} = ` +
        `${(apart(i, (i + 1) % 6) + 10 + (i === 2 ? slip : 0)).toFixed(4)} ± 0.1`,
    ),
  ].join('\n');

const said = async (slip: number) => {
  const { exit, report, faults } = await answer(job(slip), 'check', {}, world);
  expect(faults).toEqual([]);
  return { exit, text: JSON.stringify(report) };
};

test('check says that another arrangement fits, and does not blame readings that agree', async () => {
  const { exit, text } = await said(0);
  expect(exit).toBe(1);
  expect(text).toContain('the arrangement of the centres is not settled');
  expect(text).toContain('arrangements of the centres, and this one has odds of');
  expect(text).not.toContain('contradict');
});

test('check says that readings contradict each other where they do', async () => {
  const { exit, text } = await said(6);
  expect(exit).toBe(1);
  expect(text).toContain('eadings contradict each other');
});

test.each([
  ['no part at all', 'job: Nothing\nunits: mm\n', /no part is in it yet/],
  ['a part with nothing on it', 'job: Nothing\nunits: mm\nfaces:\n  pump: { flange: 10 }\n', /nothing is on pump yet/],
])('of a job with %s nothing is fixed', async (_, text, words) => {
  const { exit, report, faults } = await answer(text, 'check', {}, world);
  expect(faults).toEqual([]);
  expect(exit).toBe(1);
  expect(report[0]).toMatchObject({ kind: 'verdict', answer: 'not yet', text: expect.stringMatching(words) });
});
