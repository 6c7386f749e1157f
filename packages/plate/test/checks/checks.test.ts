import { DEGREE, polar } from '@fayplate/core';
import type { PlateSpec } from '@fayplate/job';
import { describe, expect, test } from 'vitest';
import type { Check, Plate } from '../../src/index.js';
import { sayCure } from '../../src/words/say.js';
import { holeTable } from '../../src/words/holes.js';
import { verdict } from '../../src/words/checks.js';
import { type Part, bench, checksOf, fasten, plateOf, ring, soundBench } from '../support/plate.js';

const mm = { unit: 'mm', fraction: null } as const;
const M8 = { kind: 'stud' as const, thread: 'M8', d: 8 };
const tappedM10 = fasten({ as: 'tapped', thread: 'M10', engagement: { times: 1 } });
const away: Part = { spots: ring(3, 100, 0, { kind: 'hole', d: 11 }) };

const only = (plate: Plate, rule: string): Check => {
  const [check, ...more] = checksOf(plate, rule);
  if (check === undefined || more.length > 0)
    throw new Error(
      `${rule}: ${more.length + (check === undefined ? 0 : 1)} found among ` +
        plate.checks.map((c) => c.rule).join(', '),
    );
  return check;
};
const failing = (plate: Plate, rule: string): readonly Check[] => checksOf(plate, rule).filter((c) => !c.ok);
const says = (c: Check | undefined): readonly string[] =>
  (c?.cures ?? []).filter((x) => x.clean).map((x) => sayCure(x, mm));

describe('a sound plate', () => {
  test('passes every check, and each has its source', () => {
    const plate = plateOf(soundBench(), { trials: 500 });
    expect(plate.checks.filter((c) => !c.ok).map((c) => [c.rule, c.of, c.value, c.limit])).toEqual([]);
    expect(plate.ok).toBe(true);
    expect(plate.checks.every((c) => c.source.length > 5 && Number.isFinite(c.value) && c.cures.length === 0)).toBe(
      true,
    );
    expect(plate.unknowns).toEqual([]);
  });
});

describe('web', () => {
  // A stud of M8 (hole 9) at radius 60 and a bolt of M10 (counted at 10) 4° beside it.
  const near = (degrees: number, plate: Partial<PlateSpec> = {}) =>
    bench(
      { spots: { P1: { ...M8, at: { x: 0, y: 60 } }, P2: { ...M8, at: { x: 0, y: -60 } } } },
      {
        spots: {
          Q1: { kind: 'hole', d: 11, at: polar(60, 90 * DEGREE + degrees * DEGREE) },
          Q2: { kind: 'hole', d: 11, at: polar(60, 100 * DEGREE + 180 * DEGREE + degrees * DEGREE) },
          open: { kind: 'bore', d: 400, at: { x: 0, y: 0 } },
        },
      },
      {
        fasten: new Map([
          ['pump', fasten({})],
          ['motor', tappedM10],
        ]),
        ...plate,
      },
    );
  // 10° at radius 60 is 10.459 apart: between a hole of 9 and a thread of 10 the metal runs from 4.5 to 5.459, its
  // middle at 4.979.
  test('by hand: between holes of unlike size the mark lies on the metal, not midway between the centres', () => {
    const plate = plateOf(near(10));
    const [web] = failing(plate, 'web between cuts').filter((c) => c.of.includes('H1') && c.of.includes('H3'));
    const [stud, bolt] = ['H1', 'H3'].map((id) => plate.holes.find((h) => h.id === id) ?? { x: 0, y: 0 });
    const at = web?.at ?? { x: 0, y: 0 };
    expect(Math.hypot(at.x - (stud?.x ?? 0), at.y - (stud?.y ?? 0))).toBeCloseTo(4.979, 3);
    expect(Math.hypot(at.x - (bolt?.x ?? 0), at.y - (bolt?.y ?? 0))).toBeCloseTo(5.479, 3);
  });
  test('by hand: holes that break into each other, and the turn that parts them', () => {
    const plate = plateOf(near(4));
    const [check] = failing(plate, 'web between cuts');
    expect(check?.of).toEqual(['H1', 'H3']);
    expect(check?.value).toBeCloseTo(120 * Math.sin(2 * DEGREE) - 9.5, 9);
    const turn = check?.cures.find((c) => c.kind === 'turn');
    // 3 mm of metal: 12.5 = 120 sin(x / 2): the holes must lie 11.96° apart; Q1 seen from the plate lies 4° clockwise
    // of P1, and Q2 14°.
    const least = (2 * Math.asin(12.5 / 120)) / DEGREE;
    expect(turn?.kind === 'turn' ? turn.by / DEGREE : 0).toBeCloseTo(Math.ceil(least - 4), 9);
    const after = plateOf(near(4, { clocking: { at: turn?.kind === 'turn' ? turn.by : 0 } }));
    expect(failing(after, 'web between cuts')).toEqual([]);
  });
  test('smaller threads are told only where they are enough', () => {
    const told = says(failing(plateOf(near(10.5)), 'web between cuts')[0]);
    // 10.5°: 120 sin 5.25° = 10.98 between centres; M8 beside the hole of 9: 10.98 − 4.5 − 4 = 2.48; M6: 3.48; M7 is
    // not stocked.
    expect(told.filter((t) => t.startsWith('use M'))).toEqual(['use M6 for motor']);
    expect(
      failing(
        plateOf(
          near(10.5, {
            fasten: new Map([['motor', fasten({ as: 'tapped', thread: 'M6', engagement: { times: 1 } })]]),
          }),
        ),
        'web between cuts',
      ),
    ).toEqual([]);
  });
  test('by hand: where no turn is enough, a turn and a smaller thread together', () => {
    // Four studs of M8 in counterbores of 20.5 and three bolts on one circle of 60: at best 15° apart, 120 sin 7.5° =
    // 15.66. M10 needs 10.25 + 5 + 1 = 16.25, M8 15.25.
    const b = (thread: string, clocking: number) =>
      bench(
        { spots: ring(4, 60, 0, M8) },
        { spots: { ...ring(3, 60, 0, { kind: 'hole', d: 11 }), open: { kind: 'bore', d: 400, at: { x: 0, y: 0 } } } },
        {
          clocking: { at: clocking },
          limits: { web: 1, edge: null },
          fasten: new Map([
            ['pump', fasten({ sunk: 'counterbored', head: 'nut' })],
            ['motor', fasten({ as: 'tapped', thread, engagement: { times: 1 } })],
          ]),
        },
      );
    const [check] = failing(plateOf(b('M10', 0)), 'web between cuts');
    const [cure] = check?.cures ?? [];
    expect(cure).toMatchObject({
      kind: 'together',
      clean: true,
      steps: [{ kind: 'turn' }, { kind: 'thread', thread: 'M8' }],
    });
    const turn = cure?.kind === 'together' && cure.steps[0]?.kind === 'turn' ? cure.steps[0].by : 0;
    expect(says(check)[0]).toBe(
      `turn ${Number((Math.abs(turn) / DEGREE).toFixed(2))}° ` +
        `${turn < 0 ? 'anticlockwise' : 'clockwise'} and use M8 for motor`,
    );
    expect(failing(plateOf(b('M8', turn)), 'web between cuts')).toEqual([]);
    expect(failing(plateOf(b('M10', turn)), 'web between cuts').length).toBeGreaterThan(0);
  });
  test('by hand: of those that hold, each hole shows its nearest neighbour', () => {
    const row: Part = {
      spots: Object.fromEntries([0, 20, 50, 90].map((y, i) => [`P${i + 1}`, { ...M8, at: { x: 0, y } }])),
    };
    const webs = checksOf(plateOf(bench(row, { spots: {} })), 'web between cuts');
    expect(webs.map((c) => [c.of, c.value, c.source])).toEqual(
      [
        ['H1', 'H2', 11],
        ['H2', 'H3', 21],
        ['H3', 'H4', 31],
      ].map(([a, b, web]) => [[a, b], web, 'stated in the job']),
    );
  });
  test('half a diameter where the job gives no limit', () => {
    const [check] = checksOf(plateOf(near(40, { limits: { web: null, edge: null } })), 'web between cuts').filter((c) =>
      c.of.includes('H1'),
    );
    expect(check?.limit).toBe(4);
  });
});

describe('edge', () => {
  const studs: Part = { spots: ring(4, 50, 0, M8) };
  test('by hand: margin 5 round holes of 9 leaves 9.5 mm, 1.06 diameters; the cure is the margin that gives 1.5', () => {
    const plate = plateOf(
      bench(studs, away, {
        outline: { shape: 'follow', margin: 5, corner: null },
        fasten: new Map([['motor', tappedM10]]),
      }),
    );
    const edges = failing(plate, 'hole to edge');
    const outermost = edges.find((c) => c.of[0] === 'H5'); // M10 on the larger circle: 5 + 5 on 10
    expect(outermost?.value).toBeCloseTo(1, 9);
    expect(says(outermost)[0]).toBe('make the margin 10.0 mm');
    expect(
      failing(
        plateOf(
          bench(studs, away, {
            outline: { shape: 'follow', margin: 10, corner: null },
            fasten: new Map([['motor', tappedM10]]),
          }),
        ),
        'hole to edge',
      ),
    ).toEqual([]);
  });
  test('a round plate that is given too small', () => {
    const plate = plateOf(bench(studs, { spots: {} }, { outline: { shape: 'round', margin: null, diameter: 120 } }));
    expect(failing(plate, 'hole to edge')[0]?.value).toBeCloseTo(10 / 9, 9);
    expect(says(failing(plate, 'hole to edge')[0])).toEqual(['make the plate 127.00 mm in diameter']);
  });
  test('a length in place of diameters', () => {
    const plate = plateOf(
      bench(
        studs,
        { spots: {} },
        { outline: { shape: 'round', margin: null, diameter: 120 }, limits: { web: 3, edge: { length: 9 } } },
      ),
    );
    expect(checksOf(plate, 'hole to edge')[0]).toMatchObject({ unit: 'mm', value: 10, limit: 9, ok: true });
  });
  test('by hand: what a raised spigot stands on', () => {
    const pump: Part = { spots: { C: { kind: 'bore', d: 60, at: { x: 0, y: 0 } } }, face: { centre: 'C' } };
    const plate = plateOf(
      bench(
        pump,
        { spots: {} },
        {
          outline: { shape: 'round', margin: null, diameter: 80 },
          bore: { diameter: 40, side: 'through', depth: null },
          locate: new Map([
            ['pump', { as: 'register', diameter: { value: 59.95, plusMinus: null }, depth: 3, fit: null }],
          ]),
        },
      ),
    );
    expect(checksOf(plate, 'metal to the edge').map((c) => [c.of, c.value, c.limit])).toEqual([
      [['C1', 'outline'], 20, 3],
      [['C2', 'outline'], expect.closeTo(40 - 59.95 / 2, 9), 0],
    ]);
    // The blank is thicker by what stands up from the plate.
    expect(plate.outline.blank.thickness).toBe(23);
    // It has no hole, and the bore in its middle is not taken for one.
    expect(checksOf(plate, 'hole to raised spigot')).toEqual([]);
  });
  test('nothing hangs out of the plate: a boss pocket over the edge is seen', () => {
    const plate = plateOf(
      bench(
        { spots: { ...studs.spots, B: { kind: 'boss', d: 20, height: 5, at: { x: 55, y: 20 } } } },
        { spots: {} },
        { outline: { shape: 'round', margin: null, diameter: 130 } },
      ),
    );
    expect(failing(plate, 'metal to the edge').map((c) => c.of)).toEqual([['C1', 'outline']]);
  });
});

describe('floors', () => {
  test('by hand: counterbore 9 deep in a plate of 11 leaves 2; 12 mm cures it', () => {
    const plate = plateOf(
      bench({ spots: ring(3, 50, 0, M8) }, away, {
        thickness: 11,
        fasten: new Map([
          ['pump', fasten({ sunk: 'counterbored', head: 'nut' })],
          ['motor', tappedM10],
        ]),
      }),
    );
    const [floor] = failing(plate, 'floor under the counterbore');
    expect([floor?.value, floor?.limit]).toEqual([2, 3]);
    expect(says(floor)[0]).toBe('make the plate 12.0 mm thick');
  });
  test('opposed registers: what is left between them, and none where the bore takes it away', () => {
    const b = (bore: number) =>
      soundBench({
        thickness: 8,
        bore: { diameter: bore, side: 'through', depth: null },
        fasten: new Map([
          ['pump', fasten({})],
          ['motor', fasten({ as: 'tapped', thread: 'M10', engagement: { times: 0.5 } })],
        ]),
      });
    expect(failing(plateOf(b(40)), 'floor between cuts').map((c) => [c.of, c.value, c.limit])).toEqual([
      [['C2', 'C3'], 2, 3],
    ]);
    expect(checksOf(plateOf(b(60.05)), 'floor between cuts')).toEqual([]);
  });
  test('a drill point that would come through', () => {
    const b = (thickness: number) =>
      bench({ spots: ring(3, 50, 0, M8) }, away, {
        thickness,
        fasten: new Map([['motor', fasten({ as: 'tapped', thread: 'M10', engagement: { times: 1 }, blind: true })]]),
      });
    // 10 + 1.5 + 4.5 = 16 deep, point 4.25 / tan 59° = 2.554: 18.554.
    const [point] = failing(plateOf(b(19)), 'floor under the drill point');
    expect(point?.value).toBeCloseTo(19 - 16 - 4.25 / Math.tan(59 * DEGREE), 9);
    expect(failing(plateOf(b(20)), 'floor under the drill point')).toEqual([]);
    expect(says(point)).toContain('make the plate 20.0 mm thick');
  });
  test('by hand: two blind holes on one axis, point to point', () => {
    const one: Part = { spots: { P1: { kind: 'hole', d: 9, at: { x: 0, y: 0 } } } };
    const blind = fasten({ as: 'tapped', thread: 'M8', engagement: { times: 1 }, blind: true });
    const plate = plateOf(
      bench(one, one, {
        thickness: 31,
        fasten: new Map([
          ['pump', blind],
          ['motor', blind],
        ]),
      }),
    );
    // 8 + 1.25 + 3.75 = 13 deep each, and the cone of a drill of 6.8.
    expect(checksOf(plate, 'floor between cuts').map((c) => [c.of, c.value, c.limit])).toEqual([
      [['H1', 'H2'], expect.closeTo(31 - 2 * (13 + 3.4 / Math.tan(59 * DEGREE)), 9), 3],
    ]);
  });
  test('a blind hole and a counterbore from the other side, one over the other', () => {
    const b = bench(
      { spots: { P1: { ...M8, at: { x: 0, y: 50 } }, P2: { ...M8, at: { x: 0, y: -50 } } } },
      { spots: { Q1: { kind: 'hole', thread: 'M8', d: 6.8, at: { x: -12, y: 50 } } } },
      {
        thickness: 30,
        fasten: new Map([
          ['pump', fasten({ sunk: 'counterbored', head: 'nut' })],
          ['motor', fasten({ sunk: 'counterbored', head: 'cap screw' })],
        ]),
      },
    );
    const plate = plateOf(b);
    // Counterbores 9 deep from B and 8.5 from A share no depth; each shares the other's hole: 12 − 10.25 − 4.5 breaks
    // in.
    expect(failing(plate, 'web between cuts').map((c) => c.value)).toEqual([expect.closeTo(12 - 10.25 - 4.5, 9)]);
  });
});

describe('nuts, heads and the other part', () => {
  const inside: Part = { spots: ring(3, 50, 0, M8) };
  test('a proud nut under the other part, and the counterbore that hides it', () => {
    const plate = plateOf(bench(inside, away, { fasten: new Map([['motor', tappedM10]]) }));
    const nuts = failing(plate, 'nut under the other part');
    // ISO 4032, ISO 7089: a nut M8 is 6.8 high, the washer under it 1.6.
    expect(nuts.map((c) => [c.of, c.value, c.limit])).toEqual(['H1', 'H2', 'H3'].map((h) => [[h, 'motor'], 8.4, 0]));
    expect(says(nuts[0])[0]).toBe('counterbore the plate for the nuts of pump');
  });
  test('no matter where the other part is open', () => {
    const open: Part = { spots: { ...away.spots, hole: { kind: 'bore', d: 140, at: { x: 0, y: 0 } } } };
    expect(
      checksOf(plateOf(bench(inside, open, { fasten: new Map([['motor', tappedM10]]) })), 'nut under the other part'),
    ).toEqual([]);
  });
  test('outside the hull of its fasteners it is not known; with its rim it is', () => {
    const wide: Part = { spots: ring(3, 110, Math.PI / 3, M8) };
    const small: Part = { spots: ring(3, 50, 0, { kind: 'hole', d: 11 }) };
    const unsure = plateOf(bench(wide, small, { fasten: new Map([['motor', tappedM10]]) }));
    expect(checksOf(unsure, 'nut under the other part')).toEqual([]);
    expect(unsure.unknowns.join(' ')).toContain(
      'Whether motor reaches over the nuts or heads of H1, H2, H3 is not known: give the `rim` of motor',
    );
    const rim = Object.keys(small.spots).map((feature) => ({ feature, margin: 15 }));
    const sure = plateOf(bench(wide, { ...small, face: { rim } }, { fasten: new Map([['motor', tappedM10]]) }));
    expect(sure.unknowns.join(' ')).not.toContain('rim');
    expect(checksOf(sure, 'nut under the other part')).toEqual([]);
  });
  test('both faces with nuts hidden under the other: one cannot be reached', () => {
    const b = bench(
      inside,
      { spots: ring(3, 100, 0, { kind: 'stud', thread: 'M8', d: 8 }) },
      {
        fasten: new Map([
          ['pump', fasten({ sunk: 'counterbored', head: 'nut' })],
          ['motor', fasten({ sunk: 'counterbored', head: 'nut' })],
        ]),
      },
    );
    const rim = {
      rim: [
        { at: { x: -130, y: -130 } },
        { at: { x: 130, y: -130 } },
        { at: { x: 130, y: 130 } },
        { at: { x: -130, y: 130 } },
      ],
    };
    const both = { ...b, job: { ...b.job, faces: b.job.faces.map((f) => ({ ...f, ...rim })) } };
    const hidden = only(plateOf(both), 'fasteners out of reach once the other part is on');
    expect(hidden).toMatchObject({ value: 3, limit: 0, ok: false });
    // M8 passes a hole of 8.4 closely; bolts through the part are reached from its own far side.
    expect(says(hidden)).toEqual(
      ['pump', 'motor'].map(
        (face) => `draw the studs of ${face}, open their holes out to 8.4 mm and tap the plate for bolts`,
      ),
    );
    const drawn = bench(
      { spots: ring(3, 50, 0, { kind: 'hole', d: 8.4 }) },
      { spots: ring(3, 100, 0, { kind: 'stud', thread: 'M8', d: 8 }) },
      {
        fasten: new Map([
          ['pump', fasten({ as: 'tapped', thread: 'M8' })],
          ['motor', fasten({ sunk: 'counterbored', head: 'nut' })],
        ]),
      },
    );
    expect(
      failing(
        plateOf({ ...drawn, job: { ...drawn.job, faces: drawn.job.faces.map((f) => ({ ...f, ...rim })) } }),
        'fasteners out of reach once the other part is on',
      ),
    ).toEqual([]);
    expect(only(plateOf(soundBench()), 'fasteners out of reach once the other part is on')).toMatchObject({
      value: 0,
      ok: true,
    });
  });
  test('by hand: two nuts too near each other for a socket', () => {
    const close: Part = { spots: { P1: { ...M8, at: { x: 0, y: 0 } }, P2: { ...M8, at: { x: 16, y: 0 } } } };
    const plate = plateOf(bench(close, away, { fasten: new Map([['motor', tappedM10]]) }));
    // 16 − 19.25 / 2 (socket) − 16 / 2 (the washer, wider than the nut over its corners).
    expect(failing(plate, 'room for the socket')[0]?.value).toBeCloseTo(16 - 19.25 / 2 - 8, 9);
    // Each nut lies clear of the other's hole of 9.
    expect(checksOf(plate, 'seat of the nut or head').map((c) => [c.of, c.value])).toEqual(
      [
        ['H1', 'H2'],
        ['H2', 'H1'],
      ].map((of) => [of, expect.closeTo(16 - 4.5 - 8, 9)]),
    );
  });
  test('heads on opposite sides need no room from each other', () => {
    const b = bench(
      { spots: { P1: { ...M8, at: { x: 0, y: 0 } } } },
      { spots: { Q1: { kind: 'hole', thread: 'M8', d: 6.8, at: { x: 0, y: 16 } } } },
      { fasten: new Map([['motor', fasten({ head: 'cap screw' })]]) },
    );
    const plate = plateOf(b);
    expect(plate.holes.map((h) => h.fastening?.head?.side)).toEqual(['B', 'A']);
    expect(checksOf(plate, 'room for the socket')).toEqual([]);
  });
  test('by hand: a head beside a raised spigot', () => {
    // Cap screws of M8, 13 over the head, at 45 from the middle of a spigot of 59.95.
    const b = bench(
      { spots: { C: { kind: 'bore', d: 60, at: { x: 0, y: 0 } } }, face: { centre: 'C' } },
      { spots: ring(3, 45, 0, { kind: 'hole', thread: 'M8', d: 6.8 }) },
      {
        fasten: new Map([['motor', fasten({ head: 'cap screw' })]]),
        locate: new Map([
          ['pump', { as: 'register', diameter: { value: 59.95, plusMinus: null }, depth: 3, fit: null }],
        ]),
      },
    );
    expect(checksOf(plateOf(b), 'room for the socket').map((c) => [c.of, c.value, c.limit])).toEqual(
      ['H1', 'H2', 'H3'].map((h) => [[h, 'C1'], expect.closeTo(45 - 59.95 / 2 - 6.5, 9), 0]),
    );
  });
  test('nuts that may be covered while the other face has covered ones: the rim is asked for', () => {
    const b = (rim: object) =>
      bench({ spots: ring(3, 110, Math.PI / 3, M8) }, { spots: ring(3, 50, 0, M8), face: rim });
    const open = 'can still be reached once the other part is on is not known';
    expect(plateOf(b({})).unknowns.filter((u) => u.includes(open))).toEqual([
      `Whether H1, H2, H3 ${open}: give the \`rim\` of motor.`,
    ]);
    const sure = plateOf(b({ rim: ['P1', 'P2', 'P3'].map((feature) => ({ feature, margin: 15 })) }));
    expect(sure.unknowns.filter((u) => u.includes(open))).toEqual([]);
    expect(only(sure, 'fasteners out of reach once the other part is on')).toMatchObject({ value: 0, ok: true });
  });
  test('a nut whose seat hangs over a bore', () => {
    const b = bench(
      { spots: ring(3, 28, 0, M8) },
      { spots: {} },
      { bore: { diameter: 44, side: 'through', depth: null }, limits: { web: 1, edge: null } },
    );
    expect(failing(plateOf(b), 'seat of the nut or head')[0]?.value).toBeCloseTo(28 - 22 - 8, 9);
  });
});

describe('as built', () => {
  // By hand, inches: nut 3/8 is 0.337 high (ASME B18.2.2), its narrow washer 0.065 thick (ASME B18.21.1 type A), one
  // pitch of 16 to the inch 0.0625.
  const UNC: Part['spots'] = ring(3, 50, 0, { kind: 'stud', thread: '3/8-16 UNC', d: 9.5, stands: 25.4 });
  const pump = fasten({ washer: null });
  const motor = tappedM10;
  const joined = (plate: Partial<PlateSpec> = {}) =>
    bench({ spots: UNC }, away, {
      fasten: new Map([
        ['pump', pump],
        ['motor', motor],
      ]),
      ...plate,
    });
  const stack = (links: readonly (readonly [string, number])[]) =>
    ({
      links: links.map(([name, value]) => ({ name, value, plusMinus: 0.1 })),
      unknown: { name: 'plate', from: 1, to: 99, made: null },
      shims: null,
      onHand: null,
      limits: [],
    }) as const;
  const gasket = (face: string) => ({ face, holeClearance: 1, bore: null, outline: 'plate' }) as const;

  test('a stud needs nut, washer and one thread: 0.465 in, not 0.3995', () => {
    const [left] = checksOf(plateOf(joined({ thickness: 12 })), 'stud left for its nut and washer');
    expect((left?.limit ?? 0) / 25.4).toBeCloseTo(0.337 + 0.065 + 0.0625, 9);
    const bare = joined({
      thickness: 12,
      fasten: new Map([
        ['pump', fasten({ washer: false })],
        ['motor', motor],
      ]),
    });
    const [less] = checksOf(plateOf(bare), 'stud left for its nut and washer');
    expect((less?.limit ?? 0) / 25.4).toBeCloseTo(0.3995, 9);
  });

  test('a gasket that the stack knows comes off what studs and bolts reach', () => {
    const b = joined({ thickness: 12 });
    const left = (job: typeof b.job): number =>
      checksOf(plateOf({ ...b, job }), 'stud left for its nut and washer')[0]?.value ?? Number.NaN;
    expect(left(b.job)).toBeCloseTo(13.4, 9);
    const known = { ...b.job, gaskets: [gasket('pump')], stack: stack([['gasket', 0.8]]) };
    expect(left(known)).toBeCloseTo(13.4 - 0.8, 9);
    expect(
      left({
        ...known,
        stack: stack([
          ['pump gasket', 1.5],
          ['motor gasket', 3],
        ]),
      }),
    ).toBeCloseTo(13.4 - 1.5, 9);
    // One on the other face takes nothing from these studs.
    expect(left({ ...known, gaskets: [gasket('motor')] })).toBeCloseTo(13.4, 9);
    expect(plateOf({ ...b, job: known }).unknowns.join(' ')).not.toMatch(/How thick the gasket/);
    expect(plateOf({ ...b, job: { ...known, stack: null } }).unknowns.join(' ')).toMatch(
      /how thick the gasket of pump/,
    );
  });

  // By hand: M10 in steel wants one diameter; through a flange of 16 the next stock length above 26 is 30, which
  // engages 14 of the plate's 18.
  test('M10 × 30 through 16 mm engages 14 mm, 1.40 d, in a plate of 18', () => {
    const plate = plateOf(
      bench(
        { spots: ring(4, 40, 0, { kind: 'hole', d: 11 }), face: { flange: 16 } },
        { spots: ring(3, 90, 0, { kind: 'hole', d: 11 }) },
        {
          thickness: 18,
          material: 'mild steel',
          fasten: new Map([
            ['pump', fasten({ as: 'tapped', thread: 'M10' })],
            ['motor', fasten({ as: 'tapped', thread: 'M10' })],
          ]),
        },
      ),
    );
    const [own] = checksOf(plate, 'thread engaged in the plate');
    expect(own).toMatchObject({ of: ['H1'], limit: 1, ok: true });
    expect(own?.value).toBeCloseTo(1.4, 9);
    expect(plate.bolts.find((x) => x.holes.includes('H1'))).toMatchObject({ stock: 30 });
    // The motor's flange is not given: no bolt is proposed, and all 18 mm may be used.
    expect(checksOf(plate, 'thread engaged in the plate').find((c) => c.of[0] === 'H5')?.value).toBeCloseTo(1.8, 9);
  });
});

describe('studs', () => {
  const standing = (stands: number, plate: Partial<PlateSpec> = {}) =>
    bench({ spots: ring(3, 50, 0, { ...M8, stands }) }, away, {
      fasten: new Map([
        ['pump', fasten({})],
        ['motor', tappedM10],
      ]),
      ...plate,
    });
  test('by hand: 25 mm stands 5 out of 20 mm of plate; nut and thread need 8.05', () => {
    const plate = plateOf(standing(25));
    const [left] = failing(plate, 'stud left for its nut and washer');
    expect([left?.value, left?.limit]).toEqual([5, 6.8 + 1.25]);
    expect(says(left).some((s) => s.includes('counterbore'))).toBe(true);
    // A thinner plate would do as well for the stud, but its nut would still stand under the other part, so both are
    // told.
    expect(left?.cures.map((c) => sayCure(c, mm))).toContain('make the plate 16.5 mm thick');
    // 28.05 wanted, up to the next half millimetre.
    expect(left?.cures.map((c) => sayCure(c, mm))).toContain('fit studs that stand 28.50 mm out of pump');
    expect(failing(plateOf(standing(28.5)), 'stud left for its nut and washer')).toEqual([]);
    expect(failing(plateOf(standing(28)), 'stud left for its nut and washer')).toHaveLength(3);
  });
  test("a stud's end that would meet the other part", () => {
    const plate = plateOf(
      standing(23, {
        fasten: new Map([
          ['pump', fasten({ sunk: 'counterbored', head: 'nut' })],
          ['motor', tappedM10],
        ]),
      }),
    );
    const ends = failing(plate, "stud's end under the other part");
    expect(ends[0]).toMatchObject({ value: 3, limit: 0, sense: 'most' });
    expect(says(ends[0])).toEqual(['make the plate 23.0 mm thick', 'cut the studs of pump back to 20.00 mm']);
  });
  test('outside the hull of the other fasteners it is not known whether they meet it', () => {
    const b = (stands: number) =>
      bench({ spots: ring(3, 130, 1, { ...M8, stands }) }, away, {
        fasten: new Map([
          ['pump', fasten({ sunk: 'counterbored', head: 'nut' })],
          ['motor', tappedM10],
        ]),
      });
    expect(plateOf(b(28)).unknowns.join(' ')).toContain('The studs in H1, H2, H3 end past the plate');
    expect(plateOf(b(19)).unknowns.join(' ')).not.toContain('past the plate');
  });
  test('by hand: a stud that leans by 2° in 20 mm of plate', () => {
    const b = (fit: 'close' | 'normal' | 'loose') =>
      bench({ spots: ring(3, 50, 0, { ...M8, lean: 2 * DEGREE }) }, away, {
        fasten: new Map([
          ['pump', fasten({ fit })],
          ['motor', tappedM10],
        ]),
      });
    const value = (fit: 'close' | 'normal' | 'loose') =>
      checksOf(plateOf(b(fit)), 'a leaning stud clears the whole thickness')[0]?.value;
    expect(value('normal')).toBeCloseTo(4.5 - 4 / Math.cos(2 * DEGREE) - 20 * Math.tan(2 * DEGREE), 12);
    expect(value('loose')).toBeCloseTo(5 - 4 / Math.cos(2 * DEGREE) - 20 * Math.tan(2 * DEGREE), 12);
    const [leaning] = failing(plateOf(b('normal')), 'a leaning stud clears the whole thickness');
    expect(leaning?.cures.map((c) => sayCure(c, mm))).toContain('use the loose fit for pump');
  });
  test('its length is asked for where it is not given', () => {
    expect(
      plateOf(bench({ spots: ring(3, 50, 0, M8) }, away, { fasten: new Map([['motor', tappedM10]]) })).unknowns.join(
        ' ',
      ),
    ).toContain('write `stands`');
  });
});

describe('threads', () => {
  test('by hand: 1.5 d of M10 in 12 mm is 1.2 d; a thicker plate or a smaller thread', () => {
    const b = (thread: string, thickness: number) =>
      bench({ spots: {} }, away, {
        thickness,
        fasten: new Map([['motor', fasten({ as: 'tapped', thread, engagement: { times: 1.5 } })]]),
      });
    const [short] = failing(plateOf(b('M10', 12)), 'thread engaged in the plate');
    expect([short?.value, short?.limit, short?.unit]).toEqual([1.2, 1.5, 'd']);
    expect(says(short)).toEqual(['use M8 for motor', 'make the plate 15.0 mm thick']);
    expect(failing(plateOf(b('M8', 12)), 'thread engaged in the plate')).toEqual([]);
  });
  test('bolts asked for through holes that are threaded themselves: screws into them are the first cure, and it holds', () => {
    const b = bench(
      { spots: {} },
      { spots: ring(3, 60, 0, { kind: 'hole', d: 8.5, thread: 'M10' }) },
      { fasten: new Map([['motor', tappedM10]]) },
    );
    const [held] = failing(plateOf(b), "bolt passes the part's own hole");
    expect(says(held)[0]).toMatch(/^let screws pass the plate into the threads of motor \(`as: clearance`\)$/);
    const clear = bench(
      { spots: {} },
      { spots: ring(3, 60, 0, { kind: 'hole', d: 8.5, thread: 'M10' }) },
      { fasten: new Map([['motor', fasten({ as: 'clearance' })]]) },
    );
    expect(failing(plateOf(clear), "bolt passes the part's own hole")).toEqual([]);
  });
  test("a bolt that does not pass the part's own hole", () => {
    const b = bench(
      { spots: {} },
      { spots: ring(3, 60, 0, { kind: 'hole', d: 9 }) },
      { fasten: new Map([['motor', tappedM10]]) },
    );
    const [held] = failing(plateOf(b), "bolt passes the part's own hole");
    expect(held?.value).toBeCloseTo(9 - 9.968, 6); // 6g for M10: 10 − 0.032 (ISO 965-1)
    expect(says(held)).toEqual(['use M8 for motor', 'open the holes of motor out to 10.5 mm']);
  });
  test('nothing is said of a bolt in a hole of the part whose diameter is not known', () => {
    const b = bench(
      { spots: {} },
      { spots: ring(3, 60, 0, { kind: 'hole' }) },
      { fasten: new Map([['motor', tappedM10]]) },
    );
    expect(checksOf(plateOf(b), "bolt passes the part's own hole")).toEqual([]);
  });
  test("a part's tapped hole that is shallow, and one in which the screw would bottom", () => {
    const b = (deep: number) =>
      bench(
        { spots: ring(3, 50, 0, { kind: 'hole', thread: 'M8', d: 6.8, deep }) },
        { spots: {} },
        { thickness: 20, fasten: new Map([['pump', fasten({ head: 'cap screw' })]]) },
      );
    expect(failing(plateOf(b(6)), 'thread engaged in the part')[0]).toMatchObject({ value: 0.75, limit: 1 });
    // 8 of thread and the pitch of 1.25 that a screw stays short of the end: 9.25.
    const [bottoms] = failing(plateOf(b(9)), "room below the bolt's end");
    expect([bottoms?.value, bottoms?.limit]).toEqual([1, 1.25]);
    expect(says(bottoms)).toEqual(['tap the holes of pump 9.50 mm deep']);
    expect(failing(plateOf(b(9.5)), "room below the bolt's end")).toEqual([]);
    expect(plateOf(b(9.5)).bolts).toEqual([
      { holes: ['H1', 'H2', 'H3'], thread: 'M8', least: 28, most: 28.25, stock: null },
    ]);
    expect(plateOf(b(12)).bolts[0]?.stock).toBe(30);
  });
});

describe('what stands out, and what locates', () => {
  test('a boss whose pocket is not clear of its ±', () => {
    const sigma = 0.8;
    const b = bench(
      { spots: { B: { kind: 'boss', d: 20, height: 5, at: { x: 20, y: 0 } }, ...ring(3, 60, 1, M8) } },
      { spots: {} },
    );
    const used = new Map(
      [...b.used].map(([name, u]) => [
        name,
        name === 'pump'
          ? {
              ...u,
              pattern: {
                ...u.pattern,
                covariance: u.pattern.covariance.map((row, i) =>
                  row.map((_, j) => (i === j && i < 2 ? sigma ** 2 : 0)),
                ),
              },
            }
          : u,
      ]),
    );
    expect(only(plateOf({ ...b, used }), 'clear of what stands out of the part')).toMatchObject({
      value: 1,
      limit: 1.6,
      ok: false,
    });
    expect(only(plateOf(b), 'clear of what stands out of the part')).toMatchObject({ value: 1, limit: 0, ok: true });
    expect(only(plateOf(b), 'clear above what stands out of the part')).toMatchObject({ value: 1, ok: true });
  });
  test.each([
    // 30 / 2 − 10 − 4 = 1 in the bore, 40.05 / 2 − 10 − 4 in the register, which goes 3 in.
    { bore: 30, best: 'C2', beside: 6.025, above: [1] },
    // 60 / 2 − 10 − 4 in the bore, which goes through.
    { bore: 60, best: 'C1', beside: 16, above: [] },
  ])(
    'by hand: a boss within a bore of $bore and a register: the roomier of the two counts',
    ({ bore, best, beside, above }) => {
      const pump: Part = {
        spots: {
          C: { kind: 'spigot', d: 40, at: { x: 0, y: 0 } },
          B: { kind: 'boss', d: 8, height: 2, at: { x: 10, y: 0 } },
          ...ring(3, 60, 1, M8),
        },
        face: { centre: 'C' },
      };
      const plate = plateOf(
        bench(
          pump,
          { spots: {} },
          {
            bore: { diameter: bore, side: 'through', depth: null },
            locate: new Map([
              ['pump', { as: 'register', diameter: { value: 40.05, plusMinus: null }, depth: 3, fit: null }],
            ]),
          },
        ),
      );
      expect(only(plate, 'clear of what stands out of the part')).toMatchObject({
        of: ['pump.B', best],
        value: expect.closeTo(beside, 9),
      });
      expect(checksOf(plate, 'clear above what stands out of the part').map((c) => c.value)).toEqual(above);
    },
  );
  const spigot = (value: number, depth: number, more: object = {}) =>
    bench(
      {
        spots: { C: { kind: 'spigot', d: 60, at: { x: 0, y: 0 }, ...more }, ...ring(4, 60, 0, M8) },
        face: { centre: 'C' },
      },
      { spots: {} },
      { locate: new Map([['pump', { as: 'register', diameter: { value, plusMinus: null }, depth, fit: null }]]) },
    );
  test('a register that is too small, or too shallow', () => {
    const tight = only(plateOf(spigot(59.9, 3)), 'register goes on');
    expect(tight.value).toBeCloseTo(-0.1, 9);
    expect(says(tight)).toEqual(['make the register 60.01 mm']);
    const shallow = only(plateOf(spigot(60.05, 3, { stands: 4 })), 'faces meet before the register bottoms');
    expect(shallow.value).toBe(-1);
    expect(says(shallow)).toEqual(['make the register 4.00 mm deep']);
  });
  test('a stud whose end meets the spigot that fills the recess over it', () => {
    // The plate is 25 thick, the motor's spigot of 90 fills a recess 6 deep over the studs: they may end at 19.
    const b = (stands: number) =>
      bench(
        { spots: ring(3, 30, 0, { kind: 'stud', thread: 'M6', d: 6, stands }) },
        {
          spots: {
            S: { kind: 'spigot', d: 90, stands: 5, at: { x: 0, y: 0 } },
            ...ring(4, 70, 0.5, { kind: 'hole', thread: 'M8', d: 9 }),
          },
          face: { centre: 'S', flange: 12 },
        },
        {
          thickness: 25,
          fasten: new Map([
            ['pump', fasten({ head: 'nut', sunk: 'counterbored' })],
            ['motor', fasten({ as: 'tapped' })],
          ]),
          locate: new Map([
            ['motor', { as: 'register', diameter: { value: 90.05, plusMinus: null }, depth: 6, fit: null }],
          ]),
        },
      );
    const end = (stands: number) =>
      checksOf(plateOf(b(stands)), "stud's end under the other part").map((c) => [c.value, c.ok]);
    expect(end(18)).toEqual([
      [-1, true],
      [-1, true],
      [-1, true],
    ]);
    expect(end(22)).toEqual([
      [3, false],
      [3, false],
      [3, false],
    ]);
    const holes = holeTable(plateOf(b(18)), mm);
    expect(holes.kind === 'table' ? holes.rows[0]?.at(-1) : '').toMatch(
      /counterbored 16\.5.* deep on side B from the floor there/,
    );
  });
  test('a dowel that stands longer than the plate is thick', () => {
    const b = (stands: number | null) =>
      bench({ spots: ring(2, 60, 0, { kind: 'dowel', d: 8.01, ...(stands === null ? {} : { stands }) }) }, away, {
        fasten: new Map([['motor', tappedM10]]),
        locate: new Map([['pump', { as: 'own dowels', features: ['P1', 'P2'], second: 'slot' }]]),
      });
    const [long] = failing(plateOf(b(26)), "dowel's end under the other part");
    expect([long?.value, long?.limit]).toEqual([6, 0]);
    const said = verdict(plateOf(b(26)), mm);
    expect('text' in said ? said.text : '').toMatch(
      /^Will not go together: the dowel's end in H[12] stands 6\.0+ mm into motor/,
    );
    expect(failing(plateOf(b(18)), "dowel's end under the other part")).toEqual([]);
    expect(plateOf(b(null)).unknowns.join(' ')).toMatch(/How far the dowels of pump stand out is not given \(P1, P2\)/);
    expect(plateOf(b(18)).unknowns.join(' ')).not.toMatch(/the dowels of/);
  });
  test('the least metal is also that between the ends of blind holes from either side', () => {
    // M8 tapped blind from both sides, 3 mm apart: each goes 9.25 + 3 × 1.25 + 2.043 deep.
    const blind = fasten({ as: 'tapped', thread: 'M8', engagement: { times: 1 }, blind: true });
    const three = (x: number): Part => ({
      spots: { P1: { kind: 'hole', d: 9, at: { x, y: 0 } }, P2: { kind: 'hole', d: 9, at: { x: -60, y: x } } },
    });
    const plate = plateOf(
      bench(
        three(60),
        {
          spots: {
            Q1: { kind: 'hole', d: 9, at: { x: -57, y: 0 } },
            Q2: { kind: 'hole', d: 9, at: { x: -20, y: -70 } },
          },
        },
        {
          thickness: 36,
          fasten: new Map([
            ['pump', blind],
            ['motor', blind],
          ]),
        },
      ),
    );
    const [end] = checksOf(plate, 'floor between cuts');
    expect(end?.ok).toBe(true);
    expect(end?.value).toBeGreaterThan(36 - 2 * (13 + 2.05));
    const said = verdict(plate, mm);
    expect('text' in said ? said.text : '').toMatch(/least metal between cuts \d\.\d+ mm \(H1 and H3\)/);
  });
  test('a register that clears its spigot by less than the spigot is known may not go on', () => {
    const known = (plusMinus: number) => plateOf(spigot(60.05, 3, { diameter: { value: 60, plusMinus } }));
    const close = only(known(0.08), 'register goes on');
    expect([close.ok, close.limit]).toEqual([false, 0.08]);
    expect(close.value).toBeCloseTo(0.05, 9);
    expect(says(close)).toEqual(['make the register 60.09 mm']);
    const said = verdict(known(0.08), mm);
    expect('text' in said ? said.text : '').toMatch(
      /^May not go together: the register C1 clears pump\.C by 0\.05 mm, and pump\.C is known to ± 0\.08 mm only/,
    );
    expect(only(known(0.04), 'register goes on').ok).toBe(true);
  });
  test('a bore that takes the ledge under the register away', () => {
    const b = spigot(60.05, 3);
    const wide = {
      ...b,
      job: {
        ...b.job,
        plate:
          b.job.plate === null
            ? null
            : { ...b.job.plate, bore: { diameter: 64, side: 'through' as const, depth: null } },
      },
    };
    const wall = only(plateOf(wide), 'ledge left under the register');
    expect(wall.value).toBeCloseTo(-1.975, 9);
    expect(says(wall)).toEqual(['make the bore 60.00 mm']);
  });
  test('two round dowels that fight, and the slot that frees them; three are one too many', () => {
    const b = (features: readonly string[], second: 'slot' | 'round') =>
      bench(
        { spots: { ...ring(3, 60, 0, { kind: 'dowel', d: 8.01 }) } },
        { spots: {} },
        { locate: new Map([['pump', { as: 'own dowels', features, second }]]) },
      );
    const [fight] = failing(plateOf(b(['P1', 'P2'], 'round')), 'two round dowels fight');
    expect(fight?.value).toBeCloseTo(0.05 * Math.SQRT2, 9);
    expect(says(fight)).toContain("make the hole for pump's second dowel a slot");
    // Places with standard deviations of 0.03 and 0.04 in x and in y: that of their distance is 0.05, its ± twice that.
    const unsure = b(['P3', 'P1'], 'round');
    const deviations = [0.03, 0.01, 0.04];
    const used = new Map(
      [...unsure.used].map(([name, u]) => [
        name,
        {
          ...u,
          pattern: {
            ...u.pattern,
            covariance: u.pattern.covariance.map((row, i) =>
              row.map((_, j) => (i === j ? (deviations[Math.floor(i / 2)] ?? 0) ** 2 : 0)),
            ),
          },
        },
      ]),
    );
    expect(failing(plateOf({ ...unsure, used }), 'two round dowels fight')[0]?.value).toBeCloseTo(
      0.1 + 0.05 * Math.SQRT2,
      9,
    );
    expect(failing(plateOf(b(['P1', 'P2'], 'slot')), 'two round dowels fight')).toEqual([]);
    const three = only(plateOf(b(['P1', 'P2', 'P3'], 'slot')), 'dowels that locate the same thing');
    expect([three.value, three.limit]).toEqual([3, 2]);
    expect(says(three)).toEqual(['locate pump by P1 and P2 alone, the second in a slot']);
  });
  test('a jacking screw that would push on a hole, and where it should go', () => {
    const b = bench(
      { spots: ring(4, 60, 0, M8) },
      { spots: {} },
      {
        limits: { web: 1, edge: null },
        extras: [{ what: 'jacking', thread: 'M8', circle: 120, clocks: [5 * DEGREE] }],
      },
    );
    const push = only(plateOf(b), 'jacking screw pushes on metal');
    expect(push.value).toBeCloseTo(120 * Math.sin(2.5 * DEGREE) - 8, 9);
    expect(says(push)[0]).toMatch(/^move H5 to /);
    // Opposite there it comes up against the third stud, as near.
    const third = bench(
      { spots: ring(4, 60, 0, M8) },
      { spots: {} },
      {
        limits: { web: 1, edge: null },
        extras: [{ what: 'jacking', thread: 'M8', circle: 120, clocks: [185 * DEGREE] }],
      },
    );
    expect(only(plateOf(third), 'jacking screw pushes on metal')).toMatchObject({
      of: ['H5', 'pump.P3'],
      value: expect.closeTo(120 * Math.sin(2.5 * DEGREE) - 8, 9),
    });
  });
  test('a raised spigot: no hole may cut its wall, and the bore leaves enough of it', () => {
    const b = bench(
      { spots: { C: { kind: 'bore', d: 60, at: { x: 0, y: 0 } }, ...ring(4, 33, 0, M8) }, face: { centre: 'C' } },
      { spots: {} },
      {
        bore: { diameter: 56, side: 'through', depth: null },
        locate: new Map([
          ['pump', { as: 'register', diameter: { value: 59.95, plusMinus: null }, depth: 3, fit: null }],
        ]),
      },
    );
    const plate = plateOf(b);
    expect(failing(plate, 'hole to raised spigot')[0]?.value).toBeCloseTo(33 - 59.95 / 2 - 4.5, 9);
    expect(only(plate, 'wall of the raised spigot').value).toBeCloseTo((59.95 - 56) / 2, 9);
  });
  test('a head that is sunk on the far side of a raised spigot does not cut it', () => {
    const b = (sunk: 'none' | 'counterbored') =>
      bench(
        {
          spots: {
            C: { kind: 'bore', d: 60, at: { x: 0, y: 0 } },
            ...ring(4, 36, 0, { kind: 'hole', thread: 'M8', d: 6.8 }),
          },
          face: { centre: 'C' },
        },
        { spots: {} },
        {
          fasten: new Map([['pump', fasten({ head: 'cap screw', sunk })]]),
          locate: new Map([
            ['pump', { as: 'register', diameter: { value: 59.95, plusMinus: null }, depth: 3, fit: null }],
          ]),
        },
      );
    // Side B is bored out to 15 (7.5 > 36 − 29.975), side A, where the spigot stands, to 9 only.
    for (const sunk of ['none', 'counterbored'] as const)
      expect(only(plateOf(b(sunk)), 'hole to raised spigot')).toMatchObject({ value: 36 - 59.95 / 2 - 4.5, ok: true });
  });
  test('a counterbore that does cut it: dowels in its place', () => {
    const pump = {
      spots: {
        C: { kind: 'bore' as const, d: 60, at: { x: 0, y: 0 } },
        ...ring(4, 80, 0.4, { ...M8, kind: 'hole' as const, d: 6.8 }),
      },
      face: { centre: 'C' },
    };
    const b = bench(
      pump,
      { spots: ring(3, 36, 0, { kind: 'hole', thread: 'M8', d: 6.8 }) },
      {
        fasten: new Map([['motor', fasten({ head: 'cap screw', sunk: 'counterbored' })]]),
        locate: new Map([
          ['pump', { as: 'register', diameter: { value: 59.95, plusMinus: null }, depth: 3, fit: null }],
        ]),
      },
    );
    const cut = failing(plateOf(b), 'hole to raised spigot');
    expect(cut.map((c) => c.value)).toEqual([1, 2, 3].map(() => expect.closeTo(36 - 59.95 / 2 - 7.5, 9)));
    expect(says(cut[0])).toEqual(['locate pump by two new 8 mm dowels in place of its register']);
  });
});

describe('what weakens the joint', () => {
  const crossed = (n: number) =>
    bench(
      { spots: ring(5, 60, 0.3, { kind: 'stud', thread: 'M8', d: 8 }) },
      { spots: ring(n, 60, 0.3, { kind: 'hole', d: 9 }) },
      {
        clocking: { search: [Math.PI - 0.6, Math.PI - 0.6 + 1e-9] },
        fasten: new Map([['motor', fasten({ as: 'tapped', thread: 'M8', engagement: { times: 1 } })]]),
      },
    );
  test('is told only where nothing else cures, bolts before studs, and is found again under its new number', () => {
    const [web] = failing(plateOf(crossed(6)), 'web between cuts');
    expect(says(web).every((cure) => cure.startsWith('leave out '))).toBe(true);
    expect(says(web)[0]).toMatch(/^leave out motor\.P\d \(if the joint can spare it\)$/);
    expect(says(web)[1]).toMatch(/^leave out stud pump\.P\d and take it out \(`vacant: true`\)$/);
  });
  test('is not told where too few would be left', () => {
    const webs = failing(plateOf(crossed(5)), 'web between cuts');
    expect(webs).toHaveLength(5);
    expect(webs.flatMap(says)).toEqual([]);
  });
});

describe('the chance that it goes on', () => {
  test('two round dowels: the slot is told, since no larger hole helps', () => {
    const dowels = {
      D1: { kind: 'dowel' as const, d: 8.01, at: { x: 60, y: 0 } },
      D2: { kind: 'dowel' as const, d: 8.01, at: { x: -60, y: 0 } },
    };
    const plate = plateOf(
      bench({ spots: { ...dowels, ...ring(3, 40, 1, M8) } }, away, {
        drilling: 0.1,
        locate: new Map([['pump', { as: 'own dowels', features: ['D1', 'D2'], second: 'round' }]]),
        fasten: new Map([['motor', tappedM10]]),
      }),
      { trials: 500 },
    );
    expect(says(checksOf(plate, 'chance that it goes on').find((c) => c.of[0] === 'pump'))).toEqual([
      "make the hole for pump's second dowel a slot",
    ]);
  });
  test('fails below 99.7 in 100, and the fit that reaches it is told', () => {
    const b = soundBench({ drilling: 0.5 });
    const plate = plateOf(b, { trials: 1000 });
    const pump = checksOf(plate, 'chance that it goes on').find((c) => c.of[0] === 'pump');
    expect(pump?.ok).toBe(false);
    expect(says(pump)).toEqual(['use the loose fit for pump', 'drill by read-out, each hole within ± 0.05 mm']);
    // In an inch job the cures speak inches.
    const inches = plateOf({ ...b, job: { ...b.job, units: 'in' } }, { trials: 1000 });
    expect(says(checksOf(inches, 'chance that it goes on').find((c) => c.of[0] === 'pump'))).toContain(
      'drill by read-out, each hole within ± 0.002 in',
    );
    const vague = [...soundBench().used].map(
      ([name, u]) =>
        [
          name,
          {
            ...u,
            pattern: {
              ...u.pattern,
              covariance: u.pattern.covariance.map((row, i) => row.map((_, j) => (i === j && i > 1 ? 0.3 : 0))),
            },
          },
        ] as const,
    );
    const guessed = checksOf(
      plateOf({ ...soundBench(), used: new Map(vague) }, { trials: 500 }),
      'chance that it goes on',
    ).find((c) => c.of[0] === 'pump');
    expect(says(guessed)).toEqual(['measure pump more closely: its ± is the cause']);
    expect(
      checksOf(plateOf(soundBench({ drilling: 0.05 }), { trials: 1000 }), 'chance that it goes on').every((c) => c.ok),
    ).toBe(true);
  });
});
