import { answer } from '@fayplate/study';
import { beforeAll, describe, expect, test } from 'vitest';
import { bare, sound, verdictOf } from './job.js';

interface Cut {
  readonly id: string;
  readonly x: number;
  readonly y: number;
  readonly diameter: number;
  readonly kind?: string;
}

/** The sound job's plate as it is drawn. */
let cuts: readonly Cut[] = [];
beforeAll(async () => {
  const { json } = await answer(sound, 'plate', { trials: 100 }, bare);
  const { holes, bores } = json as { readonly holes: readonly Cut[]; readonly bores: readonly Cut[] };
  cuts = [...holes, ...bores];
});

/** The sound job with a plate drilled as the places and sizes say, and what else is written of it. */
const drilled = (made: (cut: Cut) => Cut, more = 'thickness: 20.02'): string => {
  const made_ = cuts.map(made);
  const places = made_.map((c) => `    - at ${c.id} = (${c.x.toFixed(3)}, ${c.y.toFixed(3)}) by readout`);
  const sizes = made_
    .filter((c) => c.id.startsWith('C'))
    .map((c) => `    - dia ${c.id} = ${c.diameter.toFixed(3)} ± 0.01`);
  return `${sound}drilled:\n  ${more}\n  readings:\n${[...places, ...sizes].join('\n')}\n`;
};

/** As drawn, each place off by a hair so that nothing agrees too well. */
const asDrawn = (c: Cut): Cut => ({ ...c, x: c.x + 0.01 * ((c.id.length % 3) - 1), y: c.y - 0.005 });
const moved =
  (id: string, dx: number, dy = 0) =>
  (c: Cut) =>
    c.id === id ? { ...asDrawn(c), x: c.x + dx, y: c.y + dy } : asDrawn(c);
const sized = (id: string, diameter: number) => (c: Cut) => (c.id === id ? { ...asDrawn(c), diameter } : asDrawn(c));
const swapped = (one: string, other: string) => (c: Cut) => {
  const name = c.id === one ? other : c.id === other ? one : c.id;
  const at = cuts.find((x) => x.id === name) ?? c;
  return { ...asDrawn(c), x: at.x, y: at.y };
};

test('a plate drilled as drawn is proved', async () => {
  const said = await verdictOf(drilled(asDrawn), {}, 'prove');
  expect(said.open).toEqual([]);
  expect([said.answer, said.exit]).toEqual(['yes', 0]);
  expect(said.first).toMatch(/as drilled goes on both parts/);
});

describe('drilled with one fault', () => {
  const faults: readonly (readonly [what: string, job: () => string, says: RegExp])[] = [
    ['too thick for the stack', () => drilled(asDrawn, 'thickness: 24.5'), /engagement .*too little/],
    ['too thin for the stack', () => drilled(asDrawn, 'thickness: 15.5'), /tip gap .*too little/],
    [
      'a recess that is too shallow',
      () => drilled(asDrawn, 'depths: { C3: 3.2 }'),
      /C3 is 3\.200 mm deep, 0\.300 mm too little for motor\.spigot/,
    ],
    [
      'a recess too small for its spigot',
      () => drilled(sized('C3', 79.95)),
      /C3 measures 79\.95\d mm, 0\.0\d+ mm too small for motor\.spigot/,
    ],
    ['a bore that is too small', () => drilled(sized('C1', 25)), /C1 measures 25\.0/],
    ['registers out of line', () => drilled(moved('C3', 0.5)), /let the shafts run|does not go on motor/],
    ['one hole off', () => drilled(moved('H1', 1.5)), /does not go on pump/],
    ['two holes of different kinds swapped', () => drilled(swapped('H1', 'H5')), /does not go on|not drilled as drawn/],
  ];
  test.each(faults)('%s', async (_what, job, says) => {
    const said = await verdictOf(job(), {}, 'prove');
    expect(said.open.join('\n')).toMatch(says);
    expect([said.answer, said.exit]).toEqual(['no', 1]);
    // The verdict is about the whole job: the plate's own command says the same.
    const plate = await verdictOf(job());
    expect([plate.answer, plate.because]).toEqual([said.answer, said.because]);
  });
});

test('a hole that no reading reaches is Not yet', async () => {
  const job = drilled(asDrawn).replace(/ {4}- at H2 = .*\n/, '');
  const said = await verdictOf(job, {}, 'prove');
  expect([said.answer, said.exit]).toEqual(['not yet', 1]);
  expect(said.open.join('\n')).toMatch(/no reading fixes H2/);
});
