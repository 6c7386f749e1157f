import { DEGREE, apply, flipX, rotation } from '@fayplate/core';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Check, Plate } from '../src/index.js';
import { designPlate, plateJson, plateReport } from '../src/index.js';
import { jobFrom, measured } from './support/fromFile.js';
import { type Bench, bench, fasten, plateOf, ring } from './support/plate.js';
import { seeded, within } from './support/seeds.js';

const pump = (turn: number, ids = (id: string) => id) =>
  Object.fromEntries(
    Object.entries({
      C: { kind: 'spigot' as const, d: 50, at: { x: 0, y: 0 } },
      ...ring(4, 62, 0.3, { kind: 'stud', thread: 'M8', d: 8, stands: 25 }),
      B: { kind: 'boss' as const, d: 12, height: 4, at: { x: 45, y: -30 } },
    }).map(([id, s]) => [ids(id), { ...s, at: apply(rotation(turn), s.at) }]),
  );
const motor = (turn: number, mirrored = false) =>
  Object.fromEntries(
    Object.entries({
      D1: { kind: 'dowel' as const, d: 8, at: { x: 70, y: 20 } },
      D2: { kind: 'dowel' as const, d: 8, at: { x: -60, y: -35 } },
      ...ring(3, 85, 1.1, { kind: 'hole', d: 11 }),
    }).map(([id, s]) => {
      const at = apply(rotation(turn), s.at);
      return [id, { ...s, at: mirrored ? apply(flipX, at) : at }];
    }),
  );
const plate = (clocking: number, more: object = {}) => ({
  clocking: { at: clocking },
  bore: { diameter: 30, side: 'through' as const, depth: null },
  locate: new Map([
    ['pump', { as: 'register' as const, diameter: { value: 50.04, plusMinus: null }, depth: 3, fit: null }],
    ['motor', { as: 'own dowels' as const, features: ['D1', 'D2'], second: 'slot' as const }],
  ]),
  fasten: new Map([
    ['pump', fasten({ sunk: 'counterbored', head: 'nut' })],
    ['motor', fasten({ as: 'tapped', thread: 'M10', engagement: { times: 1.2 }, blind: true })],
  ]),
  ...more,
});
const values = (p: Plate) =>
  p.checks
    .map((c: Check) => [c.rule, [...c.of].sort().join(), c.value.toFixed(6), c.limit.toFixed(6), c.ok].join(' | '))
    .sort();
const make = (b: Bench) => plateOf(b, { trials: 20 });

describe('what must not change an answer', () => {
  const base = make(bench({ spots: pump(0), face: { centre: 'C' } }, { spots: motor(0) }, plate(0.4)));

  test('turning both parts together', () => {
    fc.assert(
      fc.property(within(-3, 3), (turn) => {
        // The second face is seen from the other side: the same turn of the real part goes the other way round as
        // viewed.
        const turned = make(bench({ spots: pump(turn), face: { centre: 'C' } }, { spots: motor(-turn) }, plate(0.4)));
        expect(values(turned).filter((v) => !v.startsWith('chance'))).toEqual(
          values(base).filter((v) => !v.startsWith('chance')),
        );
        expect(turned.outline.area).toBeCloseTo(base.outline.area, 6);
        expect(turned.outline.mass).toBeCloseTo(base.outline.mass ?? 0, 9);
        expect(turned.alignment?.offset.nominal).toBeCloseTo(base.alignment?.offset.nominal ?? 0, 9);
      }),
      { ...seeded, numRuns: 8 },
    );
  });

  test('turning the second part by as much as the clocking turns it back', () => {
    // As viewed from outside it turns anticlockwise, so on the plate clockwise.
    const other = make(bench({ spots: pump(0), face: { centre: 'C' } }, { spots: motor(0.7) }, plate(0.4 - 0.7)));
    expect(values(other)).toEqual(values(base));
    for (const [i, h] of other.holes.entries())
      expect(Math.hypot(h.x - (base.holes[i]?.x ?? 0), h.y - (base.holes[i]?.y ?? 0))).toBeLessThan(1e-9);
  });

  test('looking at a part from behind in place of from outside', () => {
    const behind = make(
      bench(
        { spots: pump(0), face: { centre: 'C' } },
        { spots: motor(0, true), face: { viewed: 'from behind' } },
        plate(0.4),
      ),
    );
    expect(values(behind)).toEqual(values(base));
  });

  test('naming the features differently', () => {
    const renamed = make(
      bench({ spots: pump(0, (id) => `x${id}`), face: { centre: 'xC' } }, { spots: motor(0) }, plate(0.4)),
    );
    expect(values(renamed).map((v) => v.replaceAll('pump.x', 'pump.'))).toEqual(values(base));
  });

  test('a search over the whole turn finds the same spans wherever the parts are turned to, shifted by as much', () => {
    const b = (turn: number) =>
      make(bench({ spots: pump(0), face: { centre: 'C' } }, { spots: motor(turn) }, plate(0.2)));
    const one = b(0).turning;
    const other = b(20 * DEGREE).turning;
    const width = (t: typeof one) => t.spans.reduce((s, x) => s + x.to - x.from, 0);
    expect(width(other)).toBeCloseTo(width(one), 6);
    expect(other.best?.margin).toBeCloseTo(one.best?.margin ?? 0, 4);
  });
});

describe('change of unit', () => {
  const text = (unit: 'mm' | 'in') => {
    const l = (mm: number) => (unit === 'mm' ? `${mm} mm` : `${mm / 25.4} in`.replace(/(\d\.\d{11})\d* in/, '$1 in'));
    return `
job: unit
units: ${unit}
instruments: { caliper: ± ${l(0.05)} }
faces:
  pump:
    centre: S
    up: P1
    features:
      S: { kind: spigot, diameter: ${l(60)} }
      P1: { kind: stud, thread: M8, diameter: ${l(8)}, clock: 12 }
      P2: { kind: stud, thread: M8, diameter: ${l(8)}, clock: 4 }
    readings:
      - centres S P1 = ${l(70)} by caliper
      - centres S P2 = ${l(72)} by caliper
      - centres P1 P2 = ${l(121)} by caliper
  motor:
    centre: S
    up: Q1
    features:
      S: { kind: spigot, diameter: ${l(60)} }
      Q1: { kind: hole, diameter: ${l(11)}, clock: 12 }
      Q2: { kind: hole, diameter: ${l(11)}, clock: 6 }
    readings:
      - centres S Q1 = ${l(95)} by caliper
      - centres S Q2 = ${l(96)} by caliper
      - centres Q1 Q2 = ${l(190.9)} by caliper
plate:
  between: [pump, motor]
  material: steel
  thickness: ${l(20)}
  clocking: 30 deg
  locate: { pump: { register: ${l(60.05)}, depth: ${l(3)} } }
  fasten:
    pump: { as: clearance, fit: normal }
    motor: { as: tapped, thread: M10, engagement: 1.2 }
  outline: { shape: round, margin: ${l(12)} }
  limits: { web: ${l(3)}, edge: 1.5 }
  drilling: ± ${l(0.1)}
`;
  };
  const design = (unit: 'mm' | 'in') => {
    const job = jobFrom(text(unit));
    return plateOf({ job, used: measured(job) }, { trials: 50 });
  };
  test('a job written in inches gives the plate of the same job in millimetres', () => {
    const [a, b] = [design('mm'), design('in')];
    const round = (p: Plate) =>
      JSON.parse(
        JSON.stringify({
          holes: plateJson(p).holes,
          bores: plateJson(p).bores,
          checks: p.checks.map((c) => [c.rule, c.of, c.value, c.limit, c.ok]),
          mass: p.outline.mass,
        }),
        (_, v: unknown) => (typeof v === 'number' ? Number(v.toFixed(5)) : v),
      ) as unknown;
    expect(round(b)).toEqual(round(a));
  });
  test('and says it in its own unit', () => {
    const says = (unit: 'mm' | 'in') => JSON.stringify(plateReport(design(unit), { unit, fraction: null }));
    expect(says('mm')).toContain('20.00 mm thick');
    expect(says('in')).toContain('0.787 in thick');
  });
});

describe('any parts at all', () => {
  test('give a plate of finite numbers, the same each time, or faults in words', () => {
    const spot = fc.record({
      kind: fc.constantFrom(
        'stud' as const,
        'hole' as const,
        'dowel' as const,
        'boss' as const,
        'bore' as const,
        'spigot' as const,
      ),
      at: fc.record({ x: within(-90, 90), y: within(-90, 90) }),
      d: within(3, 30),
      thread: fc.constantFrom(null, 'M8', '3/8-16 UNC', '2 BA', 'M10x1.25'),
      stands: fc.option(within(5, 60)),
      height: fc.option(within(1, 30)),
      deep: fc.option(within(3, 30)),
      lean: fc.option(within(0, 0.05)),
      vacant: fc.boolean(),
    });
    const part = fc
      .array(spot, { maxLength: 6 })
      .map((list) => ({ spots: Object.fromEntries(list.map((s, i) => [`F${i}`, s])) }));
    const how = fc.record({
      as: fc.constantFrom('clearance' as const, 'tapped' as const, 'set stud' as const),
      sunk: fc.constantFrom('none' as const, 'counterbored' as const, 'spotfaced' as const),
      blind: fc.boolean(),
      washer: fc.boolean(),
      thread: fc.constantFrom(null, 'M6', '1/4-20 UNC'),
    });
    let plates = 0;
    fc.assert(
      fc.property(part, part, how, how, within(4, 60), within(-3, 3), (a, b, f, g, thickness, clocking) => {
        const spec = bench(a, b, {
          thickness,
          clocking: { at: clocking },
          fasten: new Map([
            ['pump', fasten(f)],
            ['motor', fasten(g)],
          ]),
        });
        const attempt = () => designPlate(spec.job, spec.used, { stack: null, trials: 5 });
        const first = attempt();
        const faults = first.ok ? [] : first.faults;
        expect(
          faults.filter((f) => !/the plate has no hole|stud of the part|nothing says what to tap/.test(f)),
        ).toEqual([]);
        if (!first.ok) return;
        const again = attempt();
        const one = first.plate;
        plates += 1;
        const text = JSON.stringify(plateJson(one), (_, v: unknown) =>
          typeof v === 'number' && !Number.isFinite(v) ? 'NOT FINITE' : v,
        );
        expect(text).not.toContain('NOT FINITE');
        expect(JSON.stringify(again.ok ? plateJson(again.plate) : null)).toBe(JSON.stringify(plateJson(one)));
        expect(one.ok).toBe(one.checks.every((c) => c.ok));
        expect(plateReport(one, { unit: 'mm', fraction: null })[1]).toMatchObject({ kind: 'verdict', ok: one.ok });
      }),
      { ...seeded, numRuns: 40 },
    );
    expect(plates).toBeGreaterThan(10);
  });
});
