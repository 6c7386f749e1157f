import { answer } from '@fayplate/study';
import { beforeAll, describe, expect, test } from 'vitest';
import { bare, change, sound, verdictOf } from './job.js';

interface Cut {
  readonly id: string;
  readonly x: number;
  readonly y: number;
  readonly diameter: number;
  readonly kind?: string;
  readonly feature?: string | null;
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

/** All holes of one side turned about the plate's centre, degrees counter-clockwise. */
const turned =
  (feature: RegExp, degrees: number) =>
  (c: Cut): Cut => {
    if (!feature.test(c.feature ?? '')) return asDrawn(c);
    const [cos, sin] = [Math.cos((degrees * Math.PI) / 180), Math.sin((degrees * Math.PI) / 180)];
    return { ...asDrawn(c), x: cos * c.x - sin * c.y, y: sin * c.x + cos * c.y };
  };

test.each([3, -3, 12])('a part that the drilled plate turns by %d° is told of, though it goes on', async (degrees) => {
  const said = await verdictOf(drilled(turned(/^motor\./, degrees)), {}, 'prove');
  const found = said.requirements.find((r) => r.id === 'clocked-as-drilled');
  expect([found?.state, said.answer, said.exit]).toEqual(['fails', 'no', 1]);
  // What a hair off in each place and the play change is less than a tenth of a degree.
  expect(found?.value ?? 0).toBeGreaterThan(Math.abs(degrees) - 0.1);
  expect(found?.value ?? 0).toBeLessThan(Math.abs(degrees) + 0.1);
  expect(found?.because).toMatch(degrees > 0 ? / anticlockwise / : / clockwise /);
  // 45° clockwise as drawn; the same plate is right for a job that has the part where it now stands.
  const wanted = /`(clocking: [0-9.]+ deg)`/.exec(found?.cure ?? '')?.[1] ?? '';
  expect(Math.abs(Number(/[0-9.]+/.exec(wanted)?.[0]) - (45 - degrees))).toBeLessThan(0.15);
  const again = await verdictOf(drilled(turned(/^motor\./, degrees)).replace('clocking: 45 deg', wanted), {}, 'prove');
  expect(again.requirements.find((r) => r.id === 'clocked-as-drilled')?.state).toBe('holds');
});

test('a part that stands round by less than a degree is not', async () => {
  const said = await verdictOf(drilled(turned(/^motor\./, 0.4)), {}, 'prove');
  expect(said.requirements.find((r) => r.id === 'clocked-as-drilled')?.state).toBe('holds');
});

describe('drilled with one fault', () => {
  const faults: readonly (readonly [what: string, job: () => string, says: RegExp])[] = [
    ['too thick for the stack', () => drilled(asDrawn, 'thickness: 24.5'), /engagement .*too little/],
    ['too thin for the stack', () => drilled(asDrawn, 'thickness: 15.5'), /tip gap .*too little/],
    [
      'a recess that comes through',
      () => drilled(asDrawn, 'depths: { C3: 17.5 }'),
      /C3 is 17\.500 mm deep and comes through/,
    ],
    [
      'a recess that leaves too little floor',
      () => drilled(asDrawn, 'depths: { C3: 15.5 }'),
      /C3 is 15\.500 mm deep and leaves 1\.500 mm of floor, where 3\.000 mm is needed/,
    ],
    [
      'a tapped hole drilled so large that no thread holds',
      () => `${drilled(asDrawn)}    - dia H5 = 9.60 ± 0.02\n`,
      /H5 measures 9\.6\d* mm, 0\.\d+ mm too large/,
    ],
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
    [
      'too thin for the studs that ended flush',
      () => drilled(asDrawn, 'thickness: 19.9').replaceAll('stands: 19', 'stands: 20'),
      /end of the stud in H1 stands 0\.1 mm into motor/,
    ],
    ['an outline too small', () => drilled(asDrawn, 'outline: { diameter: 190 }'), /the plate is 190\.000 mm across/],
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

test('a register that is measured less well than it clears is said to be so', async () => {
  const said = await verdictOf(drilled(asDrawn).replace(/(dia C3 = .*) ± 0.01/, '$1 ± 0.06'), {}, 'prove');
  // Whoever drilled it has the part at hand to try it on: a note.
  expect([said.answer, said.exit]).toEqual(['yes', 0]);
  expect(said.open.join('\n')).toMatch(
    /C3 clears motor\.spigot by 0\.03\d* mm, and their diameters are known to ± 0\.06/,
  );
});

test('a register that nobody measured is said to be taken as drawn', async () => {
  const unread = drilled(asDrawn).replace(/ {4}- dia C[13] = .*\n/g, '');
  const said = await verdictOf(unread, {}, 'prove');
  expect([said.answer, said.exit]).toEqual(['yes', 0]);
  expect(said.open).toEqual([
    expect.stringMatching(/the diameter of C1 is not measured: it is taken to be 40\.000 mm, as drawn/),
    expect.stringMatching(/the diameter of C3 is not measured: .* or try C3 on motor\.spigot/),
  ]);
  const { report } = await answer(unread, 'prove', { trials: 100 }, bare);
  expect(JSON.stringify(report)).toMatch(/Mind: the diameter of C3 is not measured/);
  // The shafts are given the most play that its limits leave, never none.
  const offset = (from: typeof said): number => from.requirements.find((r) => r.id === 'drilled-offset')?.value ?? 0;
  expect(offset(said)).toBeGreaterThanOrEqual(offset(await verdictOf(drilled(asDrawn), {}, 'prove')));
});

// ISO 273, medium and coarse: 9 and 10 for M8, 11 and 12 for M10 (H14: to 10.36 and 12.43). ISO 7089: a washer of M8 is
// 16 mm across, 8.4 inside and 1.6 thick, of M10 20, 10.5 and 2: at 12.52 it keeps (20 - 12.52) / 2 - 1.26 - 0.25.
test.each([
  ['M8', '10', 'yes', null],
  ['M8', '10.3', 'yes', null],
  ['M8', '10.8', 'no', /H1 measures 10\.800 mm, .* too large/],
  ['M10', '12.5', 'yes', /larger than the coarse clearance hole of M10 \(12\.00 mm\).* 2\.23 mm of metal/],
  ['M10', '14', 'no', /H1 measures 14\.000 mm, .* too large/],
])('under the nut of a stud of %s a hole of %s mm is %s', async (thread, read, answered, says) => {
  const own = drilled(asDrawn)
    .replaceAll('thread: M8, diameter: 7.90', thread === 'M8' ? '$&' : 'thread: M10, diameter: 9.90')
    .replaceAll(/= 131\.(89|91)/g, thread === 'M8' ? '$&' : '= 133.$1');
  const said = await verdictOf(`${own}    - dia H1 = ${read} ± 0.02\n`, {}, 'prove');
  expect(said.open).toEqual(says === null ? [] : [expect.stringMatching(says)]);
  expect(said.answer).toBe(answered);
});

test('sizes that need no reading are tried without one, and a name that the plate does not have is refused', async () => {
  const only = (more: string): string => `${sound}drilled:\n  ${more}\n`;
  const said = await verdictOf(only('thickness: 24.5'), {}, 'plate');
  expect(said.answer).toBe('no');
  expect(said.open.join('\n')).toMatch(/engagement .*too little/);
  const found = await answer(only('depths: { C9: 3 }'), 'plate', { trials: 100 }, bare);
  expect([found.exit, found.error]).toEqual([2, expect.stringMatching(/the plate has no C9/)]);
  const slot = await answer(only('slots: { H1: { width: 8 } }'), 'plate', { trials: 100 }, bare);
  expect([slot.exit, slot.error]).toEqual([2, expect.stringMatching(/H1 is no slot/)]);
});

/** The sound job with two dowels of its own on each part in place of the registers: the second of each in a slot. */
const dowelled = change(
  ['spigot: { kind: spigot, diameter: 60.00 ± 0.01, stands: 2.5 }', 'spigot: { kind: bore, diameter: 60 }'],
  [
    '    readings:\n      - at spigot',
    '      D1: { kind: dowel, diameter: 8, stands: 10 }\n      D2: { kind: dowel, diameter: 8, stands: 10 }\n    ' +
      'readings:\n      - at D1 = (45, 45) ± 0.005\n      - at D2 = (-45, -45) ± 0.005\n      - at spigot',
  ],
  ['    pump: { register: 60.03, depth: 3 }', '    pump: { dowels: [D1, D2], second: slot }'],
);

describe('a part that its dowels locate', () => {
  let plate: { readonly holes: readonly (Cut & { readonly as: string })[]; readonly bores: readonly Cut[] } = {
    holes: [],
    bores: [],
  };
  beforeAll(async () => {
    const { json } = await answer(dowelled, 'plate', { trials: 100 }, bare);
    plate = json as typeof plate;
  });
  const made = (dx: (id: string) => number, more = 'thickness: 20.02'): string => {
    const all = [...plate.holes.filter((h) => h.as !== 'slot'), ...plate.bores];
    const places = all.map((c) => `    - at ${c.id} = (${(c.x + dx(c.id)).toFixed(3)}, ${c.y.toFixed(3)}) ± 0.005`);
    const sizes = all
      .filter((c) => c.id.startsWith('C'))
      .map((c) => `    - dia ${c.id} = ${c.diameter.toFixed(3)} ± 0.01`);
    return `${dowelled}drilled:\n  ${more}\n  readings:\n${[...places, ...sizes].join('\n')}\n`;
  };
  const slotOf = (): string => plate.holes.find((h) => h.as === 'slot')?.id ?? '';
  const dowelOf = (): string => plate.holes.find((h) => h.as === 'dowel')?.id ?? '';

  test('drilled as drawn it is proved, and how far it lets the shafts run out is told', async () => {
    const said = await verdictOf(
      made(() => 0, `slots: { ${slotOf()}: { width: 8.01, length: 1 } }`),
      {},
      'prove',
    );
    expect(said.open).toEqual([]);
    expect(said.requirements.find((r) => r.id === 'drilled-offset')?.value ?? 1).toBeLessThan(0.1);
  });
  test('a dowel hole out of its place puts the shafts out of line', async () => {
    const said = await verdictOf(
      made((id) => (id === dowelOf() ? 0.3 : 0)),
      {},
      'prove',
    );
    expect(said.open.join('\n')).toMatch(/H\d+, H\d+ and C\d as drilled let the shafts run 0\.[2-4]\d* mm out of line/);
  });
  test.each([
    ['too wide', 'width: 8.2', /the slot H\d+ is 8\.200 mm wide, and was to be 8\.000 mm to 8\.015 mm/],
    ['too short', 'length: 0.2', /the slot H\d+ is 0\.200 mm long/],
  ])('a slot that is %s', async (_what, size, says) => {
    const said = await verdictOf(
      made(() => 0, `slots: { ${slotOf()}: { ${size} } }`),
      {},
      'prove',
    );
    expect(said.answer).toBe('no');
    expect(said.open.join('\n')).toMatch(says);
  });
});

test('a dowel that is reamed at assembly is neither asked for nor judged at its pilot', async () => {
  const job = change(['    motor: { register: 80.03, depth: 4 }', '    motor: { dowels: 2, diameter: 8 }']);
  const { json } = await answer(job, 'plate', { trials: 100 }, bare);
  const { holes, bores } = json as {
    readonly holes: readonly (Cut & { readonly as: string })[];
    readonly bores: readonly Cut[];
  };
  const later = holes.filter((h) => h.as === 'dowel');
  expect(later).toHaveLength(2);
  const plan = await answer(job, 'prove', { trials: 100 }, bare);
  const planned = JSON.stringify(plan.json);
  for (const h of later) expect(planned).not.toMatch(new RegExp(`(over|between|dia|wall)[^"]* ${h.id}[ "]`));
  const all = [...holes.filter((h) => h.as !== 'dowel'), ...bores];
  const places = all.map((c) => `    - at ${c.id} = (${c.x.toFixed(3)}, ${c.y.toFixed(3)}) by readout`);
  const pilots = later.flatMap((c) => [
    `    - at ${c.id} = (${c.x.toFixed(3)}, ${c.y.toFixed(3)}) by readout`,
    `    - dia ${c.id} = 7.50 ± 0.02`,
  ]);
  for (const read of [places, [...places, ...pilots]]) {
    const said = await verdictOf(`${job}drilled:\n  readings:\n${read.join('\n')}\n`, {}, 'prove');
    expect(said.open.filter((o) => /drilled|not-measured/.test(o) && !/ C[12] is not measured/.test(o))).toEqual([]);
  }
});

test('a hole that no reading reaches is Not yet', async () => {
  const job = drilled(asDrawn).replace(/ {4}- at H2 = .*\n/, '');
  const said = await verdictOf(job, {}, 'prove');
  expect([said.answer, said.exit]).toEqual(['not yet', 1]);
  expect(said.open.join('\n')).toMatch(/no reading fixes H2/);
});

test('a bore of which the size alone was read is judged by it, and unsettles no place', async () => {
  const withBore = (mm: number): string =>
    drilled((c) => c)
      .replace(/ {4}- at C1 = .*\n/, '')
      .replace(/dia C1 = [0-9.]+ ± 0.01/, `dia C1 = ${mm} ± 0.01`);
  const drawn = cuts.find((c) => c.id === 'C1')?.diameter ?? 0;
  expect((await verdictOf(withBore(drawn), {}, 'prove')).answer).toBe('yes');
  const narrow = await verdictOf(withBore(drawn - 5), {}, 'prove');
  expect(narrow.answer).toBe('no');
  expect(narrow.because).toMatch(/C1 measures/);
});

test('a hole drilled too small is drilled out to its size first of all, with no washer', async () => {
  const h1 = cuts.find((c) => c.id === 'H1')?.diameter ?? 0;
  const text = `${drilled((c) => c)}    - dia H1 = ${(h1 - 1.6).toFixed(2)} ± 0.01\n`;
  const { json } = await answer(text, 'prove', { trials: 200 }, bare);
  const ways = (json as { readonly midway: { readonly ways: readonly { readonly works: readonly unknown[] }[] } })
    .midway.ways;
  expect(ways[0]?.works).toMatchObject([{ hole: 'H1', what: 'to size', diameter: h1 }]);
});
