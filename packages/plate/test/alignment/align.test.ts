import { randomFrom, speechFor } from '@fayplate/core';
import { describe, expect, test } from 'vitest';
import {
  type AlignmentSpec,
  type Joint,
  type LocatedShaft,
  alignShafts,
  alignmentJson,
  alignmentReport,
} from '../../src/index.js';
import { fastener, locator, moved, ring } from '../assembly/support.js';

const zeros = (n: number): readonly (readonly number[])[] =>
  Array.from({ length: n }, () => Array.from({ length: n }, () => 0));

const shaft = (
  face: string,
  by: LocatedShaft['by'],
  joints: readonly Joint[],
  rest: Partial<LocatedShaft> = {},
): LocatedShaft => ({
  face,
  shaft: { x: 0, y: 0 },
  feature: 'spigot',
  by,
  joints,
  covariance: zeros(2 * (joints.length + 1)),
  ...rest,
});

const exact = shaft('motor', 'set at assembly', []);
const spec = (a: LocatedShaft, b: LocatedShaft = exact, rest: Partial<AlignmentSpec> = {}): AlignmentSpec => ({
  faces: [a, b],
  parallel: null,
  over: 200,
  secondSetting: 0.02,
  limits: { offset: null, tilt: null },
  ...rest,
});

const register = (face: string, play: number): LocatedShaft =>
  shaft(face, 'register', [locator('spigot', { x: 0, y: 0 }, play)]);

describe('offset', () => {
  test('one register: anywhere within its play; 95 in 100 within √0.95 of it', () => {
    const a = alignShafts(spec(register('pump', 0.05)));
    expect(a.offset.worst).toBeCloseTo(0.05, 9);
    expect(a.offset.p95).toBeCloseTo(0.05 * Math.sqrt(0.95), 3);
    expect(a.offset.nominal).toBe(0);
  });

  test('two registers add up at the worst; by chance they come to less', () => {
    const a = alignShafts(spec(register('pump', 0.05), register('motor', 0.03)));
    expect(a.offset.worst).toBeCloseTo(0.05 + 0.03 + 0.02, 9);
    expect(a.offset.p95 ?? 0).toBeGreaterThan(0.05 * Math.sqrt(0.95));
    expect(a.offset.p95 ?? 0).toBeLessThan(0.08);
    expect(a.sources[0]?.says).toBe('play of pump.spigot in its register');
  });

  test('what the second setting misses of the first is in it, and that is said', () => {
    expect(alignShafts(spec(register('pump', 0.05), register('motor', 0.03))).unknowns.join(' ')).toMatch(
      /two registers of the plate share one axis to within/,
    );
    expect(alignShafts(spec(register('pump', 0.05))).unknowns.join(' ')).not.toMatch(/one axis/);
  });

  test('a shaft measured from its register, nothing else: Rayleigh, 2.4477 σ', () => {
    const sigma = 0.02;
    const covariance = zeros(4).map((row, i) => row.map((_, j) => (i === j && i >= 2 ? sigma ** 2 : 0)));
    const a = alignShafts(
      spec(shaft('pump', 'register', [locator('spigot', { x: 0, y: 0 })], { feature: 'shaft', covariance })),
    );
    expect((a.offset.p95 ?? 0) / sigma).toBeCloseTo(2.4477, 1);
    expect(a.offset.worst ?? 0).toBeGreaterThan(a.offset.p95 ?? 0);
  });

  test('an error that register and shaft share does not part them', () => {
    const covariance = zeros(4).map((row, i) => row.map((_, j) => ((i - j) % 2 === 0 ? 0.01 : 0)));
    const a = alignShafts(
      spec(shaft('pump', 'register', [locator('spigot', { x: 0, y: 0 })], { feature: 'shaft', covariance })),
    );
    expect(a.offset.worst).toBeCloseTo(0, 4);
  });

  test('a shaft off its register swings with the play of the bolts', () => {
    const joints = [locator('spigot', { x: 0, y: 0 }), ...ring(4, 50).map((p, i) => fastener(`P${i}`, p, 0.25))];
    const a = alignShafts(
      spec(
        shaft('pump', 'register', joints, { shaft: { x: 60, y: 0 }, feature: 'shaft' }),
        shaft('motor', 'set at assembly', [], { shaft: { x: 60, y: 0 } }),
      ),
    );
    expect(a.offset.worst).toBeCloseTo((0.25 / 50) * 60, 5);
  });

  test('with nothing to locate it the part hangs on its bolts', () => {
    const a = alignShafts(
      spec(
        shaft(
          'pump',
          'fasteners',
          ring(4, 50).map((p, i) => fastener(`P${i}`, p, 0.3 + 0.1 * i)),
        ),
      ),
    );
    expect(a.offset.worst).toBeCloseTo(0.4, 9);
    expect(a.sources[0]?.says).toMatch(/nothing else locates/);
  });

  test('and where its shaft lies among those bolts counts, as it is measured', () => {
    const sigma = 0.03;
    const bolts = ring(4, 50).map((p, i) => fastener(`P${i}`, p, 0.3));
    const covariance = zeros(10).map((row, i) => row.map((_, j) => (i === j ? sigma ** 2 : 0)));
    const a = alignShafts(spec(shaft('pump', 'fasteners', bolts, { feature: 'shaft', covariance })));
    // Its own variance and a quarter of a bolt's, both ways at once: 2 √(2 (1 + 1/4)) σ.
    expect(a.offset.worst).toBeCloseTo(0.3 + 2 * Math.sqrt(2 * 1.25) * sigma, 9);
  });

  /** Farthest that any of many small motions that every bolt allows moves the shaft; found by trying. */
  const tried = (bolts: readonly Joint[], at: { x: number; y: number }): number => {
    const random = randomFrom(7);
    let most = 0;
    for (let k = 0; k < 200_000; k++) {
      const [x, y, turn] = [random.normal(), random.normal(), random.normal() / 40];
      const move = (p: { x: number; y: number }): number => Math.hypot(x - turn * p.y, y + turn * p.x);
      const share = Math.max(...bolts.map((b) => move(b.part) / b.clearance[1]));
      most = Math.max(most, move(at) / share);
    }
    return most;
  };

  test.each([
    ['four bolts of one play, the shaft in their middle', ring(4, 50), [0.3, 0.3, 0.3, 0.3], { x: 0, y: 0 }],
    ['of different play', ring(4, 50), [0.3, 0.4, 0.5, 0.6], { x: 0, y: 0 }],
    ['three bolts, the shaft a little off', ring(3, 50), [0.3, 0.3, 0.3], { x: 0.05, y: 0.02 }],
    [
      'two bolts, the shaft far to one side',
      [
        { x: -10, y: 0 },
        { x: 10, y: 0 },
      ],
      [0.3, 0.3],
      { x: 100, y: 0 },
    ],
    [
      'two bolts, the shaft across their line',
      [
        { x: -10, y: 0 },
        { x: 10, y: 0 },
      ],
      [0.3, 0.3],
      { x: 0, y: 60 },
    ],
    ['a shaft outside the bolts', ring(6, 30), [0.2, 0.2, 0.2, 0.2, 0.2, 0.2], { x: 90, y: 0 }],
  ])('bolts alone, %s: never less than a motion that they allow, nor far more', (_, places, clearances, at) => {
    const bolts = places.map((p, i) => fastener(`P${i}`, p, clearances[i] ?? 0));
    const worst = alignShafts(
      spec(shaft('pump', 'fasteners', bolts, { shaft: at }), shaft('motor', 'set at assembly', [], { shaft: at })),
    ).offset.worst!;
    const found = tried(bolts, at);
    expect(worst).toBeGreaterThanOrEqual(found - 1e-9);
    expect(worst).toBeLessThan(1.25 * found);
  });

  test('one bolt lets the part swing round it: the offset is not known, unless the shaft is where the bolt is', () => {
    const one = (x: number) =>
      alignShafts(
        spec(
          shaft('pump', 'fasteners', [fastener('P1', { x: 40, y: 0 }, 0.3)], { shaft: { x, y: 0 } }),
          shaft('motor', 'set at assembly', [], { shaft: { x, y: 0 } }),
        ),
      );
    expect(one(0).offset.worst).toBeNull();
    expect(one(0).unknowns.join(' ')).toMatch(/One bolt alone holds pump, which can swing round it/);
    expect(one(40).offset.worst).toBeCloseTo(0.3, 9);
  });

  test('one dowel alone does not locate: the part hangs on its bolts', () => {
    const bolts = ring(4, 50).map((p, i) => fastener(`P${i}`, p, 0.3));
    expect(
      alignShafts(spec(shaft('pump', 'dowels', [locator('D1', { x: 60, y: 0 }, 0.01), ...bolts]))).offset.worst,
    ).toBeCloseTo(0.3, 9);
  });

  test('where nothing of known size locates a part the offset is not known, and that is said', () => {
    const a = alignShafts(
      spec(shaft('pump', 'fasteners', []), register('motor', 0.05), { limits: { offset: 0.1, tilt: null } }),
    );
    expect(a.offset).toMatchObject({ worst: null, p95: null, ok: null });
    expect(a.unknowns.join(' ')).toMatch(/Nothing of known size locates pump/);
  });

  test('shafts drawn apart are apart, as drawn and at the worst', () => {
    const a = alignShafts(
      spec(register('pump', 0.05), shaft('motor', 'set at assembly', [], { shaft: { x: 0.3, y: 0.4 } })),
    );
    expect(a.offset.nominal).toBeCloseTo(0.5, 9);
    expect(a.offset.worst).toBeCloseTo(0.55, 9);
    // Only how they lie to each other counts, by chance too.
    const at = (x: number, y: number) => shaft('pump', 'set at assembly', [], { shaft: { x, y } });
    expect(alignShafts(spec(at(12, 7), at(12.3, 7.4))).offset).toMatchObject({
      nominal: expect.closeTo(0.5, 9),
      worst: expect.closeTo(0.5, 9),
      p95: expect.closeTo(0.5, 9),
    });
  });
});

describe('dowels', () => {
  const d1 = { x: -50, y: 0 };
  const d2 = { x: 50, y: 0 };
  const dowels = (play1: number, play2: number, rest: Partial<LocatedShaft> = {}, made = 0): LocatedShaft =>
    shaft(
      'pump',
      'dowels',
      [
        { ...locator('D1', d1, play1), made },
        { ...locator('D2', d2, play2), made, along: 0 },
      ],
      rest,
    );

  test('play at the far dowel reaches the shaft between them halved', () => {
    expect(alignShafts(spec(dowels(0, 0.02))).offset.worst).toBeCloseTo(0.01, 5);
    expect(
      alignShafts(
        spec(
          dowels(0, 0.02, { shaft: { x: 50, y: 0 } }),
          shaft('motor', 'set at assembly', [], { shaft: { x: 50, y: 0 } }),
        ),
      ).offset.worst,
    ).toBeCloseTo(0.02, 5);
  });

  test('play at the first moves the shaft along the line by all, across it by half: the worst is all', () => {
    const a = alignShafts(spec(dowels(0.02, 0)));
    expect(a.offset.worst).toBeCloseTo(0.02, 5);
    expect(a.offset.p95 ?? 0).toBeLessThan(0.02);
  });

  test('two holes made ± 0.1: along the line one hole’s σ, across it the mean of both; checked against that closed form', () => {
    const sigma = 0.05;
    const a = alignShafts(spec(dowels(0, 0, {}, 2 * sigma)));
    expect(a.offset.worst).toBeCloseTo(2 * Math.sqrt(sigma ** 2 + sigma ** 2 / 2), 4);
  });

  test('measured places count as made ones do, and what the whole pattern shares does not count', () => {
    const shared = zeros(6).map((row, i) => row.map((_, j) => ((i - j) % 2 === 0 ? 0.04 : 0)));
    expect(alignShafts(spec(dowels(0, 0, { covariance: shared }))).offset.worst).toBeCloseTo(0, 4);
    const own = zeros(6).map((row, i) => row.map((_, j) => (i === j && i < 4 ? 0.0025 : 0)));
    expect(alignShafts(spec(dowels(0, 0, { covariance: own }))).offset.worst).toBeCloseTo(2 * Math.sqrt(0.00375), 4);
  });

  test('where the dowels stand among the joints is no matter', () => {
    // On a line at 30°, so that every row counts.
    const at = (end: number) => ({ x: end * 50 * Math.cos(Math.PI / 6), y: end * 25 });
    const [first, second] = [locator('D1', at(-1)), { ...locator('D2', at(1)), along: Math.PI / 6 }];
    const joints = [
      ...ring(3, 80).map((p, i) => fastener(`P${i}`, p, 0.3)),
      first,
      fastener('P3', { x: 70, y: 70 }, 0.3),
      second,
    ];
    const place = (j: number): number => (joints[Math.floor(j / 2)]?.role === 'locator' ? 0.0025 : 1);
    const covariance = zeros(14).map((row, i) => row.map((_, j) => (i === j && i < 12 ? place(i) : 0)));
    expect(alignShafts(spec(shaft('pump', 'dowels', joints, { covariance }))).offset.worst).toBeCloseTo(
      2 * Math.sqrt(0.00375),
      4,
    );
    const made = joints.map((j) => ({ ...j, made: j.role === 'locator' ? 0.1 : 5 }));
    expect(alignShafts(spec(shaft('pump', 'dowels', made))).offset.worst).toBeCloseTo(2 * Math.sqrt(0.00375), 4);
  });

  test('turning the whole arrangement changes nothing', () => {
    const turned = (turn: number): number | null => {
      const spin = (p: { x: number; y: number }) => ({
        x: p.x * Math.cos(turn) - p.y * Math.sin(turn),
        y: p.x * Math.sin(turn) + p.y * Math.cos(turn),
      });
      const at = spin({ x: 10, y: 35 });
      const joints = [
        { ...locator('D1', spin(d1), 0.01), made: 0.05 },
        { ...locator('D2', spin(d2), 0.02), made: 0.05, along: turn },
      ];
      return alignShafts(
        spec(shaft('pump', 'dowels', joints, { shaft: at }), shaft('motor', 'set at assembly', [], { shaft: at })),
      ).offset.worst;
    };
    for (const t of [0.3, 1.7, -2.4]) expect(turned(t)).toBeCloseTo(turned(0) ?? 0, 9);
  });

  /** The shaft's displacement by the plate laid on its dowels, solved afresh for one set of errors. */
  test('the straight-line map is what seating on the two dowels does', () => {
    const e1 = { x: 0.03, y: -0.02 };
    const e2 = { x: -0.01, y: 0.04 };
    const at = { x: 10, y: 35 };
    // Part turned so that D2 lies on the line of the holes, then laid with D1 in its hole.
    const p1 = moved(d1, e1.x, e1.y);
    const p2 = moved(d2, e2.x, e2.y);
    const turn = -Math.atan2(p2.y - p1.y, p2.x - p1.x);
    const x = at.x - p1.x;
    const y = at.y - p1.y;
    const seated = {
      x: d1.x + Math.cos(turn) * x - Math.sin(turn) * y,
      y: d1.y + Math.sin(turn) * x + Math.cos(turn) * y,
    };
    const rank1 = (e: readonly number[]) => e.map((p) => e.map((q) => p * q));
    const a = alignShafts(
      spec(
        dowels(0, 0, { shaft: at, covariance: rank1([e1.x, e1.y, e2.x, e2.y, 0, 0]) }),
        shaft('motor', 'set at assembly', [], { shaft: at }),
      ),
    );
    expect((a.offset.worst ?? 0) / 2).toBeCloseTo(Math.hypot(seated.x - at.x, seated.y - at.y), 4);
  });
});

describe('tilt', () => {
  test('twice the ± over the width of the face', () => {
    const a = alignShafts(spec(exact, exact, { parallel: 0.05 }));
    expect(a.tilt.worst).toBeCloseTo(0.1 / 200, 9);
    expect(a.sources.filter((s) => s.what === 'tilt').map((s) => s.worst)).toEqual([a.tilt.worst]);
    expect(a.tilt.p95 ?? 1).toBeLessThan(a.tilt.worst ?? 0);
  });
  test('not stated: not known, and the words say how to find out', () => {
    const a = alignShafts(spec(exact, exact, { limits: { offset: 0.1, tilt: 0.001 } }));
    expect(a.tilt).toMatchObject({ worst: null, p95: null, ok: null });
    expect(a.sources.filter((s) => s.what === 'tilt')).toEqual([]);
    expect(a.unknowns.join(' ')).toMatch(/parallel/);
  });
});

describe('against the coupling and in words', () => {
  const limited = (offset: number) =>
    alignShafts(
      spec(register('pump', 0.05), register('motor', 0.05), {
        parallel: 0.02,
        over: 150,
        limits: { offset, tilt: 0.002 },
      }),
    );
  test('the limit is held at the worst, or it is not', () => {
    expect(limited(0.13).offset.ok).toBe(true);
    expect(limited(0.11).offset.ok).toBe(false);
  });
  test('the verdict says no where the coupling bears less; the caution says how it is measured in the end', () => {
    const [first, ...rest] = alignmentReport(limited(0.09), speechFor('mm'));
    expect(first).toMatchObject({ kind: 'verdict', ok: false });
    const last = rest.at(-1);
    expect(last?.kind === 'caution' && /half the full reading/.test(last.text)).toBe(true);
    expect(alignmentReport(limited(0.2), speechFor('in'))[0]).toMatchObject({ ok: true });
  });
  test('JSON: degrees for the tilt, the same seed the same bytes', () => {
    const json = alignmentJson(limited(0.2)) as { tilt: { worst: number } };
    expect(json.tilt.worst).toBeCloseTo((2 * Math.atan(0.04 / 150) * 180) / Math.PI, 9);
    expect(JSON.stringify(alignmentJson(limited(0.2)))).toBe(JSON.stringify(json));
  });
});
