import { type Motion, type Point, compose, flipX, heading, randomFrom, rotation } from '@fayplate/core';
import { describe, expect, test } from 'vitest';
import { handCure } from '../../src/prove/hand.js';
import { prove, proveJson, proveReport } from '../../src/index.js';
import { atAll, caliper, drilledJob, mated, moved, overPairs, placesOf, planned, plate } from './drilled.js';

const quick = { trials: 400, seed: 3 };
const isMotor = (id: string): boolean => plate.holes.some((h) => h.id === id && h.feature!.startsWith('motor'));
const swap: Motion = compose(rotation(Math.PI / 2), flipX);
const words = (p: ReturnType<typeof prove>): string => JSON.stringify(proveReport(p, { unit: 'mm', fraction: null }));

describe('readings that disagree together', () => {
  test('though none stands out prove nothing', () => {
    // Every place out by about 1.8 times what its ± allows.
    const shaken = (seed: number) => {
      const random = randomFrom(seed);
      return atAll(placesOf(), null).map((r) => ({
        ...r,
        point:
          r.point === null ? null : { x: r.point.x + random.normal() * 0.018, y: r.point.y + random.normal() * 0.018 },
      }));
    };
    const proofs = Array.from({ length: 4 }, (_, i) =>
      prove(drilledJob([...shaken(i + 1), ...shaken(i + 101)]), plate, mated(), { trials: 50, seed: 3 }),
    );
    const quiet = proofs.filter((p) => p.located?.suspects.length === 0);
    expect(quiet.length).toBeGreaterThan(0);
    const torn = quiet.filter((p) => (p.located?.fit.p ?? 1) < 0.001);
    expect(torn.length).toBeGreaterThan(0);
    for (const p of torn) {
      expect(p.ok).toBe(false);
      expect(words(p)).toContain('disagree by more than their ± allow');
    }
  });
});

describe('a plate drilled as drawn', () => {
  test('exact readings: nothing off, goes on both parts with all its clearance', () => {
    const p = prove(drilledJob(atAll(placesOf(), null)), plate, mated(), quick);
    expect(p.ok).toBe(true);
    expect(p.holes).toHaveLength(9);
    for (const h of p.holes) expect(h.position).toBeLessThan(1e-6);
    expect(p.goesOn.get('pump')!.slack).toBeCloseTo(0.5, 5);
    expect(p.unmeasured).toEqual([]);
    expect(p.mistake).toBeNull();
  });

  test.each(['A', 'B'] as const)(
    'seen from side %s, distances or places, the bench frame and the order of readings do not matter',
    (side) => {
      const off = new Map(
        [...placesOf()].map(([id, q]): [string, Point] => [id, id === 'H3' ? { x: q.x + 0.3, y: q.y - 0.1 } : q]),
      );
      const base = prove(drilledJob(atAll(off, null)), plate, mated(), quick);
      const other = prove(
        drilledJob(atAll(off, null, side, { turn: -2, shift: { x: 7, y: 9 }, mirrored: false }).toReversed(), {
          viewed: `from side ${side}`,
        }),
        plate,
        mated(),
        quick,
      );
      const spans = prove(drilledJob(overPairs(off)), plate, mated(), quick);
      for (const h of base.holes) {
        const same = other.holes.find((o) => o.id === h.id)!;
        expect(Math.hypot(same.dx - h.dx, same.dy - h.dy)).toBeLessThan(1e-5);
      }
      // With C1 not among the distances the least-squares laying differs by its share only.
      expect(spans.holes.find((h) => h.id === 'H3')!.dx).toBeCloseTo(base.holes.find((h) => h.id === 'H3')!.dx, 1);
    },
  );

  // ASME Y14.5: position is twice the distance off. (0.1, 0.15) gives 0.36 in a published conversion table.
  test('position of a hole that is off by (0.1, 0.15)', () => {
    const off = new Map(
      [...placesOf()].map(([id, q]): [string, Point] => [id, id === 'H3' ? { x: q.x + 0.1, y: q.y + 0.15 } : q]),
    );
    const p = prove(drilledJob(atAll(off, null)), plate, mated(), quick);
    const h = p.holes.find((x) => x.id === 'H3')!;
    expect(h.position).toBeCloseTo(2 * Math.hypot(h.dx, h.dy), 12);
    // The least-squares laying of eleven places gives some of it to the others.
    expect(h.position).toBeGreaterThan(0.36 * 0.75);
    expect(h.position).toBeLessThan(0.361);
  });

  test('the ± said of each place is met by simulation', () => {
    let inside = 0;
    let all = 0;
    for (let seed = 1; seed <= 30; seed++) {
      const p = prove(drilledJob(atAll(placesOf(), randomFrom(seed))), plate, mated(), { trials: 1 });
      for (const h of p.holes) {
        all++;
        if (Math.hypot(h.dx, h.dy) <= h.within) inside++;
      }
    }
    expect(inside / all).toBeGreaterThan(0.91);
    expect(inside / all).toBeLessThan(0.995);
  });
});

describe('a plate that only just goes on as measured', () => {
  // P1's hole is pulled outwards until a hair of its clearance is left; the parts are known to ± 0.1.
  const hairOff = (by: number) =>
    new Map([...placesOf()].map(([id, q]): [string, Point] => [id, id === 'H1' ? { x: q.x, y: q.y + by } : q]));
  test('is not proved while the ± leave it open, and is when they do not', () => {
    const slack = (by: number) => prove(drilledJob(atAll(hairOff(by), null)), plate, mated(plate, 0.05), quick);
    let by = 0.4;
    while (slack(by + 0.01).goesOn.get('pump')!.slack > 0) by += 0.01;
    const close = slack(by);
    expect(close.goesOn.get('pump')!.slack).toBeGreaterThan(0);
    expect(close.goesOn.get('pump')!.probability).toBeLessThan(0.9);
    expect(close.ok).toBe(false);
    expect(words(close)).toMatch(
      /Not proved: as measured it goes on the pump with .* but the ± of part and plate are too wide to be sure/,
    );
    const known = prove(drilledJob(atAll(hairOff(0.3), null)), plate, mated(plate, 0.005), quick);
    expect(known.goesOn.get('pump')!.probability).toBeGreaterThan(0.95);
    expect(known.ok).toBe(true);
  });
});

describe('a plate that does not go on', () => {
  const off = (by: Point): ReadonlyMap<string, Point> =>
    new Map([...placesOf()].map(([id, q]) => [id, id === 'H2' ? { x: q.x + by.x, y: q.y + by.y } : q]));

  test('is refused, and easing the hole that is off by as much as is said makes it go on', () => {
    const at = off({ x: 0, y: 1.2 });
    const p = prove(drilledJob(atAll(at, null)), plate, mated(), quick);
    const pump = p.goesOn.get('pump')!;
    expect(p.ok).toBe(false);
    expect(pump.slack).toBeLessThan(0);
    expect(pump.probability).toBeLessThan(0.05);
    const [first] = pump.ease;
    expect(first!.eases.map((e) => e.hole)).toEqual(['H2']);
    expect(words(p)).toMatch(/ease .* mm towards .*\(about \d+ mm³ of metal\)/);
    const inches = JSON.stringify(proveReport(p, { unit: 'in', fraction: null }));
    expect(inches).toMatch(/ease .* in towards .*\(about 0\.\d+ in³ of metal\)/);
    expect(inches).not.toMatch(/\d mm/);
    expect(first!.eases[0]!.by).toBeLessThan(0.7);
    expect(Math.sin(first!.eases[0]!.towards)).toBeLessThan(-0.9); // the hole is too high: file its lower side
    const eased = {
      ...plate,
      holes: plate.holes.map((h) =>
        h.id === 'H2'
          ? {
              ...h,
              x: h.x,
              y: h.y,
              diameter: h.diameter + 2 * first!.eases[0]!.by,
              limits: [h.diameter + 2 * first!.eases[0]!.by, h.diameter + 2 * first!.eases[0]!.by] as const,
            }
          : h,
      ),
    };
    expect(prove(drilledJob(atAll(at, null)), eased, mated(), quick).goesOn.get('pump')!.slack).toBeGreaterThan(-1e-4);
    const less = {
      ...plate,
      holes: plate.holes.map((h) =>
        h.id === 'H2'
          ? {
              ...h,
              diameter: h.diameter + 1.8 * first!.eases[0]!.by,
              limits: [h.diameter + 1.8 * first!.eases[0]!.by, h.diameter + 1.8 * first!.eases[0]!.by] as const,
            }
          : h,
      ),
    };
    expect(prove(drilledJob(atAll(at, null)), less, mated(), quick).goesOn.get('pump')!.slack).toBeLessThan(0);
    expect(words(p)).toMatch(/ease H2 by/);
  });

  test('no way of easing that is offered takes more metal than the one before it', () => {
    const at = new Map(
      [...off({ x: 0.9, y: 0.9 })].map(([id, q]): [string, Point] => [id, id === 'H4' ? { x: q.x - 1.1, y: q.y } : q]),
    );
    const { ease } = prove(drilledJob(atAll(at, null)), plate, mated(), quick).goesOn.get('pump')!;
    expect(ease.length).toBeGreaterThan(0);
    expect(ease.map((o) => o.metal)).toEqual(ease.map((o) => o.metal).toSorted((a, b) => a - b));
  });
});

describe('mistakes are named where the readings can tell', () => {
  const turn = (k: number): Motion => rotation((k * 2 * Math.PI) / 4);
  /**
   * One of the motor's holes stands out of its square, and one of the pump's out of its ring, so that no other laying
   * looks the same.
   */
  const uneven = {
    ...plate,
    holes: plate.holes.map((h) => (h.id === 'H7' || h.id === 'H2' ? { ...h, x: h.x + 4, y: h.y - 3 } : h)),
  };

  test.each<[string, Motion, (id: string) => boolean, RegExp]>([
    ['the whole plate mirrored', flipX, () => true, /mirror image/],
    ['the whole plate with X and Y swapped', swap, () => true, /mirror image.*X and Y were swapped/],
    ['the motor’s holes with X the wrong way', flipX, isMotor, /motor’s holes.*X the wrong way/],
    ['the motor’s holes with X and Y swapped', swap, isMotor, /motor’s holes.*X and Y swapped/],
    ['the motor’s holes a division on', turn(1), isMotor, /motor’s holes.*one division \(90°\) anticlockwise/],
    ['the motor’s holes a division back', turn(-1), isMotor, /motor’s holes.*one division \(90°\) clockwise/],
  ])('%s', (_, motion, pick, says) => {
    const p = prove(
      drilledJob(atAll(moved(placesOf(uneven), motion, pick), randomFrom(5))),
      uneven,
      mated(uneven),
      quick,
    );
    expect(p.mistake?.says ?? '').toMatch(says);
    expect(p.ok).toBe(false);
    expect(words(p)).toMatch(says);
  });

  /** No counterbore: all holes of a part alike. */
  const flat = { ...plate, holes: plate.holes.map((h) => ({ ...h, sink: null })) };

  test('within drilling errors nothing is called a mistake', () => {
    for (let seed = 1; seed <= 10; seed++) {
      const random = randomFrom(seed);
      const rough = new Map(
        [...placesOf()].map(([id, q]): [string, Point] => [
          id,
          { x: q.x + random.normal() * 0.15, y: q.y + random.normal() * 0.15 },
        ]),
      );
      expect(prove(drilledJob(atAll(rough, random)), plate, mated(), { trials: 1 }).mistake).toBeNull();
    }
  });

  /** The bore measured from three of the pump's holes, which all lie 72.5 from it. */
  const toBore = ['H1', 'H2', 'H3'].map((h) => planned(`centres ${h} C1`, 72.5));

  test('distances alone cannot tell a mirror image: it is said, with the reading that would', () => {
    const p = prove(drilledJob(overPairs(moved(placesOf(), flipX))), plate, mated(), quick);
    expect(p.mistake).toBeNull();
    expect(p.hand).toEqual({ settled: false, by: null });
    expect(p.plan.hand).toMatch(/mirror image.*clocks: \{ H\d+: …, H\d+: …, H\d+: … \}.*“at H\d+”/);
    expect(words(p)).toMatch(/are the same on a plate drilled as its mirror image/);
    expect(handCure(p.plan.hand)).toMatch(/^mark side B, .* in one set-up$/);
    expect(handCure(null)).toBeNull();
    // One hole is counterbored, so the mirror image would not do: neither is called good, for both read the same.
    for (const places of [placesOf(), moved(placesOf(), flipX)]) {
      const all = prove(drilledJob([...overPairs(places), ...toBore]), plate, mated(), quick);
      expect([all.unmeasured, all.handSure, all.ok]).toEqual([[], false, false]);
      expect(words(all)).toMatch(/Not proved: unless it is drilled as its mirror image/);
    }
  });

  test('where the mirror image would do as well, distances alone are enough', () => {
    const p = prove(drilledJob([...overPairs(placesOf()), ...toBore]), flat, mated(flat), quick);
    expect(p.hand.settled).toBe(false);
    expect([p.handSure, p.mistake]).toEqual([true, null]);
    expect(p.goesOn.get('motor')!.slack).toBeGreaterThan(0.4);
    expect(p.ok).toBe(true);
  });

  test('clocks beside the distances do tell', () => {
    const clocksOf = (places: ReadonlyMap<string, Point>) =>
      new Map([...places].map(([id, q]) => [id, heading(q) + 0.1]));
    const places = placesOf(uneven);
    const mirrored = moved(places, flipX);
    const wrong = prove(drilledJob(overPairs(mirrored), { clocks: clocksOf(mirrored) }), uneven, mated(uneven), quick);
    expect(wrong.hand.by).toBe('clocks');
    expect(wrong.mistake?.says ?? '').toMatch(/mirror image/);
    expect(wrong.ok).toBe(false);
    const right = prove(drilledJob(overPairs(places), { clocks: clocksOf(places) }), uneven, mated(uneven), quick);
    expect(right.mistake).toBeNull();
    const fromA = prove(
      drilledJob(overPairs(places), { clocks: clocksOf(mirrored), viewed: 'from side A' }),
      uneven,
      mated(uneven),
      quick,
    );
    expect(fromA.mistake).toBeNull();
    expect(fromA.hand.settled).toBe(true);
  });

  test('distances do tell a part’s holes turned against the other’s', () => {
    const p = prove(drilledJob(overPairs(moved(placesOf(uneven), turn(1), isMotor))), uneven, mated(uneven), quick);
    expect(p.mistake?.says ?? '').toMatch(/one division/);
    expect(p.renumbered).toBeNull();
    expect(p.ok).toBe(false);
  });

  test('a counterbore that comes elsewhere in the mirror is not overlooked', () => {
    expect(prove(drilledJob(atAll(moved(placesOf(), flipX), null)), plate, mated(), quick)).toMatchObject({
      ok: false,
      renumbered: null,
    });
  });

  test.each<[string, Motion, (id: string) => boolean]>([
    ['mirrored', flipX, () => true],
    ['the motor’s four turned one division', turn(1), isMotor],
  ])('an even pattern %s serves as it is: said, renamed and proved', (_, motion, pick) => {
    const p = prove(drilledJob(atAll(moved(placesOf(), motion, pick), null)), flat, mated(flat), quick);
    expect(p.mistake).not.toBeNull();
    expect(p.renumbered).not.toBeNull();
    expect(p.goesOn.get('motor')!.slack).toBeGreaterThan(0.4);
    expect(p.ok).toBe(true);
    expect(words(p)).toMatch(/the pattern is the same that way.*H\d+ is H\d+/);
  });

  test('holes numbered from another one, and the other way round, are found by where they are', () => {
    const other: Record<string, string> = { H1: 'H3', H2: 'H2', H3: 'H1', H4: 'H5', H5: 'H4' };
    const places = placesOf();
    const renamed = new Map([...places].map(([id]) => [id, places.get(other[id] ?? id)!]));
    const p = prove(drilledJob(atAll(renamed, null)), flat, mated(flat), quick);
    expect(p.mistake).toBeNull();
    expect(Object.fromEntries([...p.renumbered!].filter(([a, b]) => a !== b))).toEqual({
      H1: 'H3',
      H3: 'H1',
      H4: 'H5',
      H5: 'H4',
    });
    expect(p.ok).toBe(true);
  });

  test('on an even plate, which lies on itself at every quarter turn, the fewest names are changed', () => {
    const even = { ...flat, holes: flat.holes.filter((h) => isMotor(h.id)) };
    const places = placesOf(even);
    const ids = even.holes.map((h) => h.id);
    // One reads the first as the second and the second as the first; the other two are right.
    const swapped = new Map([...places].map(([id, at]) => [id, places.get({ H6: 'H7', H7: 'H6' }[id] ?? id) ?? at]));
    for (let seed = 301; seed < 309; seed++) {
      const read = atAll(swapped, randomFrom(seed)).filter((r) => ids.includes(r.features[0] ?? ''));
      const names = prove(drilledJob(read), even, mated(even), quick).renumbered ?? new Map<string, string>();
      expect([...names].filter(([a, b]) => a !== b).length).toBe(2);
    }
  });

  test('where no reading ties the two patterns, what would is named', () => {
    const p = prove(drilledJob(overPairs(placesOf(), (a, b) => isMotor(a) === isMotor(b))), plate, mated(), quick);
    const missing = p.plan.readings.map((r) => r.reading.split(' ').slice(1));
    expect(p.unmeasured.length).toBeGreaterThan(0);
    expect(missing.filter(([a, b]) => isMotor(a!) !== isMotor(b!)).length).toBeGreaterThanOrEqual(3);
    expect(p.ok).toBe(false);
  });
});

describe('before it is drilled', () => {
  test('the readings to take fix every hole, more than once for most, and each is worth its place', () => {
    const p = prove(drilledJob([]), plate, mated(), quick);
    expect(p.ok).toBeNull();
    const needed = p.plan.readings.filter((r) => r.why === 'needed');
    expect(needed).toHaveLength(2 * 10 - 3);
    expect(new Set(p.plan.readings.flatMap((r) => r.reading.split(' ').slice(1)))).toEqual(
      // Read from side A, where H1 is not sunk: there the recess C2 keeps jaws off the bore C1 within it.
      new Set([...plate.holes.map((h) => h.id), 'C2']),
    );
    expect(words(p)).toMatch(/Not drilled yet/);
    expect(words(p)).toMatch(/mirror image/);
  });

  test('the side to read from is said, and where jaws meet a wider mouth there', () => {
    expect(prove(drilledJob([]), plate, mated(), quick).plan.mouths).toMatch(/^Read them all from side A/);
    const sink = (side: 'A' | 'B') => ({ kind: 'counterbored', diameter: 15, depth: 6, side }) as const;
    const both = {
      ...plate,
      holes: plate.holes.map((h, i) => (i < 2 ? { ...h, sink: sink(i === 0 ? 'A' : 'B') } : h)),
    };
    const p = prove(drilledJob([]), both, mated(), quick);
    expect(p.plan.mouths).toMatch(/^Read them all from side B.*wider mouth on side B of H2: there use a pin/);
    expect(words(p)).toContain('wider mouth');
  });

  // By hand, inches: M10 tapped at 8.5 mm (0.3346) 3.2478 from a bore of 4.25 with recesses of 5.1193 on side B and
  // 5.502 on side A. To the bore it is 3.2478 − 2.125 − 0.1673 = 0.9555, which no jaw reaches; to the recess on side B
  // 3.2478 − 2.5597 − 0.1673 = 0.5208.
  test('jaws meet the recess, not the bore within it; and a tapped hole is measured before it is tapped', () => {
    const IN = 25.4;
    const bore = plate.bores[0]!;
    const p = {
      ...plate,
      holes: plate.holes
        .slice(5, 9)
        .map((h, i) => ({ ...h, x: [3.2478, -3.2478, 0, 0][i]! * IN, y: [0, 0, 3.2478, -3.2478][i]! * IN })),
      bores: [
        { ...bore, diameter: 4.25 * IN },
        { ...bore, id: 'C2', kind: 'recess' as const, diameter: 5.502 * IN, side: 'A' as const, depth: 3 },
        { ...bore, id: 'C3', kind: 'recess' as const, diameter: 5.1193 * IN, side: 'B' as const, depth: 4 },
      ],
    };
    const { readings, mouths } = prove(drilledJob([]), p, mated(), quick).plan;
    const toBore = readings.filter((r) => / C\d/.test(r.reading) && r.reading.startsWith('between'));
    expect(toBore.length).toBeGreaterThan(0);
    for (const r of toBore) {
      expect(r.reading).toMatch(/C3/);
      expect(r.expect / IN).toBeCloseTo(0.5208, 4);
    }
    expect(readings.some((r) => /C1|C2/.test(r.reading))).toBe(false);
    expect(mouths).toMatch(/C3 is the wall that the jaws meet first/);
    expect(mouths).toMatch(/H6, H7, H8 and H9 count at the size of the tapping drill: measure before tapping/);
  });

  test('what is foreseen of their ± is what they then give', () => {
    const bare = drilledJob([]);
    const job = { ...bare, instruments: new Map([[caliper.name, caliper]]) };
    const { plan } = prove(job, plate, mated(), quick);
    const taken = drilledJob(plan.readings.map((r) => planned(r.reading, r.expect)));
    const after = prove(taken, plate, mated(), { trials: 1 });
    expect(Math.max(...after.holes.map((h) => h.within))).toBeLessThanOrEqual(plan.within! * 1.0001);
    expect(Math.max(...after.holes.map((h) => h.within))).toBeGreaterThan(plan.within! * 0.5);
    expect(plan.within).toBeLessThan(0.25);
    expect(after.unmeasured).toEqual([]);
    expect(after.plan.readings).toEqual([]);
  });
});

describe('one of the planned readings is misread', () => {
  const bare = drilledJob([]);
  const job = { ...bare, instruments: new Map([[caliper.name, caliper]]) };
  const { plan } = prove(job, plate, mated(), quick);
  const random = randomFrom(8);
  const taken = plan.readings.map((r) => planned(r.reading, r.expect + (random.normal() * caliper.each) / 2));

  test('those to check check: none of them is of a diameter, which nothing else would show', () => {
    expect(plan.readings.filter((r) => r.why === 'check').length).toBeGreaterThan(3);
    expect(plan.readings.map((r) => r.reading.split(' ')[0])).not.toContain('dia');
  });

  test.each(plan.readings.map((r, i) => [r.reading, i] as const).filter(([, i]) => i % 3 === 0))(
    'by a tenth of an inch, %s: the plate is not proved, a reading of the same holes is named, and nothing is filed',
    (_, at) => {
      const p = prove(
        drilledJob(taken.map((r, i) => (i === at ? { ...r, value: r.value + 2.54 } : r))),
        plate,
        mated(),
        { trials: 1 },
      );
      expect(p.ok).toBe(false);
      // Few readings are to spare, so that one can stand in for another; the diameter that a drill leaves is among
      // them.
      const named = p
        .located!.suspects.flatMap((s) => [s.reading, ...s.tiedWith])
        .flatMap((id) => taken.find((r) => r.id === id)?.features ?? id.replace('diameter ', ''));
      expect(taken[at]!.features.some((f) => named.includes(f))).toBe(true);
      expect(words(p)).toMatch(/Not proved: .*does not fit the rest/);
      expect(words(p)).not.toMatch(/ease H/);
    },
  );

  test('a hole drilled far out is one hole far out, and no misreading', () => {
    const places = new Map(
      [...placesOf()].map(([id, q]): [string, Point] => [id, id === 'H3' ? { x: q.x + 12, y: q.y - 9 } : q]),
    );
    const p = prove(drilledJob(overPairs(places)), plate, mated(), quick);
    expect(p.located!.suspects).toEqual([]);
    expect(p.holes.toSorted((a, b) => b.position - a.position)[0]!.id).toBe('H3');
    expect(words(p)).toMatch(/Does not go on the pump/);
  });
});

test('JSON keeps the names that programs read and carries no infinities', () => {
  const json = proveJson(prove(drilledJob(atAll(placesOf(), randomFrom(2))), plate, mated(), quick)) as {
    holes: readonly object[];
    goes_on: Record<string, object>;
  };
  expect(Object.keys(json.holes[0]!)).toEqual(expect.arrayContaining(['id', 'dx', 'dy', 'position', 'allowed', 'ok']));
  expect(Object.keys(json.goes_on)).toEqual(['pump', 'motor']);
  expect(Object.keys(json.goes_on['pump']!)).toEqual(expect.arrayContaining(['probability', 'slack', 'shift', 'turn']));
  expect(JSON.parse(JSON.stringify(json))).toEqual(json);
});
