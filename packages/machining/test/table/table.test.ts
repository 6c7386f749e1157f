import { distance } from '@fayplate/core';
import { describe, expect, test } from 'vitest';
import {
  type MachinistTable,
  type TableOptions,
  dividing,
  machinistTable,
  placeColumns,
  tableJson,
} from '../../src/index.js';
import { shopOrder } from '../../src/operations/operation.js';
import { wayLength } from '../../src/travel/order.js';
import { hole, job, plate, simple, withMachine } from '../fixture.js';

const made = (...args: Parameters<typeof machinistTable>): MachinistTable => {
  const t = machinistTable(...args);
  if (!t.ok) throw new Error(t.faults.join('\n'));
  return t.table;
};
const faults = (options: TableOptions, ofJob = job): readonly string[] => {
  const t = machinistTable(plate, ofJob, options);
  return t.ok ? [] : t.faults;
};
const at = (t: MachinistTable, id: string) => t.rows.find((r) => r.hole === id && r.op !== 'mill')!;

describe('places', () => {
  test('from the first face’s centre every round hole stands where the plate has it', () => {
    const t = made(plate, job);
    expect(t.origin).toBe('pump.spigot');
    for (const h of plate.holes.filter((h) => h.slot === null))
      for (const r of t.rows.filter((r) => r.hole === h.id)) expect(distance(r, h)).toBe(0);
  });

  test.each(['pump', 'H3', 'C2', 'motor.M2', 'lower left corner', 'upper right corner', 'middle H2 H3'])(
    'no origin (%s) or horizontal line changes a distance',
    (origin) => {
      const t = made(plate, job, { origin, horizontal: ['H2', 'H7'] });
      for (const c of t.checks) {
        const [a, b] = c.between.map((id) => t.rows.find((r) => r.hole === id)!);
        expect(distance(a!, b!)).toBeCloseTo(c.centres, 9);
      }
      expect(at(t, 'H7').y - at(t, 'H2').y).toBeCloseTo(0, 9);
      expect(at(t, 'H7').x).toBeGreaterThan(at(t, 'H2').x);
    },
  );

  test('the origin reads zero', () => {
    const t = made(plate, job, { origin: 'H3', horizontal: ['H3', 'H1'] });
    expect(Math.hypot(at(t, 'H3').x, at(t, 'H3').y)).toBeCloseTo(0, 12);
  });

  test('from a corner of the blank nothing lies below zero, and the shop’s own blank has the plate in its middle', () => {
    const t = made(plate, withMachine({ blank: { width: 200, height: 190, thickness: null } }), {
      origin: 'lower left corner',
    });
    expect(at(t, 'C1').x).toBeCloseTo(100, 9);
    expect(at(t, 'C1').y).toBeCloseTo(95, 9);
    expect(t.blank).toMatchObject({ left: 0, bottom: 0, width: 200, height: 190 });
    const far = made(plate, job, { origin: 'upper right corner' });
    for (const r of far.rows) expect(Math.max(r.x, r.y)).toBeLessThan(0);
  });

  test('side A is set with x the other way', () => {
    const t = made(simple([hole('H1', 12, 7, { from: 'A', depth: 8 })]), job);
    expect(t.rows[0]).toMatchObject({ x: 12, y: 7, side: 'A', set: { x: -12, y: 7 } });
    expect(t.setups.map((s) => s.side)).toEqual(['A']);
  });

  test.each([
    [{ origin: 'H99' }, /no place “H99”.*H1/],
    [{ horizontal: ['H1', 'H1'] as const }, /one place/],
    [{ oneSided: true }, /approach from -x -y/],
  ])('%o is refused with advice', (options, says) => {
    expect(faults(options).join(' ')).toMatch(says);
  });

  test('a blank that does not hold the plate is refused', () => {
    expect(faults({}, withMachine({ blank: { width: 170, height: 300, thickness: null } })).join(' ')).toMatch(
      /does not hold the plate/,
    );
  });
});

test('by hand: a place by its radius and angle, anticlockwise from +x', () => {
  const t = made(simple([hole('H1', 30, 40), hole('H2', -40, 30), hole('H3', 0, -45)]), job);
  const polar = new Map(placeColumns(t.rows).map((c) => [c.hole, c.polar]));
  const angle = Math.atan2(4, 3) * (180 / Math.PI);
  expect(['H1', 'H2', 'H3'].map((id) => polar.get(id))).toEqual(
    [50, 50, 45].map((radius, i) => ({ radius, angle: expect.closeTo([angle, angle + 90, 270][i] ?? NaN, 9) })),
  );
});

describe('rounding', () => {
  test.each([
    ['mm', null, 0.001],
    ['mm', 0.01, 0.01],
    ['mm', 0.02, 0.02],
    ['in', null, 0.00254],
    ['in', 0.0127, 0.0127],
  ] as const)(
    '%s, step %s: the greatest error said is the greatest there is, and within half a step each way',
    (unit, step, used) => {
      const t = made(plate, withMachine({ step }), { unit });
      const errors = t.rows.map((r) => Math.hypot((r.side === 'A' ? -r.x : r.x) - r.set.x, r.y - r.set.y));
      expect(t.rounding).toBeCloseTo(Math.max(...errors), 12);
      expect(t.rounding).toBeGreaterThan(0);
      expect(t.rounding).toBeLessThanOrEqual((used / 2) * Math.SQRT2 * 1.001);
      expect(t.step).toBeCloseTo(used, 12);
    },
  );
});

describe('order', () => {
  const t = made(plate, job);

  test('every hole is cut in shop order, tools are never taken twice', () => {
    for (const id of new Set(t.rows.map((r) => r.hole))) {
      for (const side of ['A', 'B']) {
        const ops = t.rows.filter((r) => r.hole === id && r.side === side).map((r) => shopOrder.indexOf(r.op));
        expect(ops).toEqual(ops.toSorted((a, b) => a - b));
      }
    }
    const tools = t.rows.map((r) => `${r.side} ${r.tool} ${r.op === 'chamfer'}`);
    const changes = tools.filter((tool, i) => tool !== tools[i - 1]);
    expect(new Set(changes).size).toBe(changes.length);
  });

  test('travel is what the rows add up to, and no longer than as listed', () => {
    const sum = t.setups.reduce(
      (s, { side }) =>
        s +
        wayLength(
          t.rows.filter((r) => r.side === side).map((r) => r.set),
          null,
        ),
      0,
    );
    expect(t.travel.tableOrder).toBeCloseTo(sum, 9);
    expect(t.travel.tableOrder).toBeLessThan(t.travel.asListed);
  });

  test('coming from one side, every row says where to turn, and the table says so', () => {
    const one = made(plate, withMachine({ backlash: { x: -1, y: -1 } }), { oneSided: true });
    const b = one.rows.filter((r) => r.side === 'B');
    for (const [i, r] of b.entries()) {
      const from = r.via ?? b[i - 1]?.set;
      expect(from).toBeDefined();
      expect(from!.x).toBeLessThanOrEqual(r.set.x);
      expect(from!.y).toBeLessThanOrEqual(r.set.y);
    }
    expect(b.some((r) => r.via !== null)).toBe(true);
  });
});

describe('notes', () => {
  const spigot = (side: 'A' | 'B', depth: number) =>
    ({
      id: `C${side}`,
      kind: 'spigot',
      feature: null,
      part: null,
      x: 0,
      y: 0,
      diameter: 40,
      limits: null,
      side,
      depth,
    }) as const;

  // Geometry: the drill for M24 comes its point and 1 mm through, the tap four pitches of 3 mm.
  test('the room below is for what comes farthest through, the tap', () => {
    const m24 = hole('H1', 60, 0, {
      as: 'tapped',
      diameter: 21,
      thread: { name: 'M24', major: 24, pitch: 3, depth: null },
    });
    expect(made(simple([m24]), job).notes.join(' ')).toMatch(/Pack the plate up at least 13 mm, clear of every hole/);
  });

  // Common practice: a jobber drill of 6.8 mm has 69 mm of flute (DIN 338, from memory), a hand tap M8 reaches some 35
  // mm.
  test('what no usual drill or tap reaches is said', () => {
    const m8 = (thickness: number) =>
      simple(
        [
          hole('H1', 60, 0, {
            as: 'tapped',
            diameter: 6.8,
            land: [0, thickness],
            thread: { name: 'M8', major: 8, pitch: 1.25, depth: null },
          }),
        ],
        { thickness },
      );
    const notes = (thickness: number): string => made(m8(thickness), job).notes.join(' ');
    expect(notes(20)).not.toMatch(/beyond|reaches/);
    expect(notes(40)).toMatch(/Tap M8 × 1.25 goes 45 mm deep in H1, deeper than a usual tap reaches/);
    expect(notes(40)).not.toMatch(/long-series/);
    expect(notes(80)).toMatch(/goes 83 mm deep in H1, beyond 8 diameters: take a long-series drill/);
  });

  test('stock is thick enough for spigots on both sides', () => {
    const both = simple([hole('H1', 60, 0)], { bores: [spigot('A', 4), spigot('B', 5)] });
    const p = { ...both, outline: { ...both.outline, blank: { ...both.outline.blank, thickness: 29 } } };
    const t = made(p, job);
    // By hand: 20 + 4 + 5 is 29; the next that is sold is 30 mm, so 1 mm comes off before both flats are cut round
    // their spigots.
    expect(t.stock).toMatchObject({ name: '30 mm', faced: 1 });
    expect(t.rows[0]).toMatchObject({ op: 'face', depth: 1, note: 'to 29 mm over all, the top of what is raised' });
    expect(t.notes.join(' ')).toMatch(/30 mm thick, faced to 29\.00 mm, then cut round what stands proud/);
  });

  test('the edge finder’s sign follows the edge when the plate is turned over', () => {
    const t = made(
      simple([
        hole('H1', 12, 7, { sink: { kind: 'spotfaced', diameter: 15, depth: 1, side: 'B' } }),
        hole('H2', -30, 0, { from: 'A', depth: 8 }),
      ]),
      withMachine({ tip: 6 }),
      { origin: 'lower left corner' },
    );
    expect(t.setups.map((q) => q.says).join(' ')).toMatch(
      /touches the left edge set X to −3\.000, at the lower edge Y to −3\.000.*touches the right edge set X to 3\.000, at the lower edge Y to −3\.000/,
    );
    // At the right edge with side A uppermost the corner's X is 0 and the spindle stands half the tip to its right.
    expect(t.rows.filter((r) => r.side === 'A').every((r) => r.set.x < 0)).toBe(true);
  });

  test('turned over, the plate is found again by a bore that the first side left', () => {
    const bore = {
      id: 'C1',
      kind: 'bore',
      feature: null,
      part: null,
      x: 10,
      y: 5,
      diameter: 20,
      limits: null,
      side: 'through',
      depth: null,
    } as const;
    const t = made(
      simple([hole('H1', 60, 0)], {
        bores: [
          bore,
          { ...bore, id: 'C2', kind: 'recess', diameter: 30, side: 'A', depth: 3 },
          { ...bore, id: 'C3', kind: 'recess', diameter: 30, side: 'B', depth: 3 },
        ],
      }),
      job,
    );
    expect(t.setups.map((s) => s.side)).toEqual(['B', 'A']);
    expect(t.setups[1]!.says).toMatch(/C1 with an indicator: it is at X −10\.000, Y 5\.000/);
    const plain = made(simple([hole('H1', 60, 0, { from: 'A', depth: 8 }), hole('H2', 0, 0, { depth: 8 })]), job);
    expect(plain.setups[1]!.says).toMatch(/touches the left edge set X to/);
  });
});

describe('what the rows do not say', () => {
  test.each([
    ['lower left corner', 'the left edge set X to −5.000, at the lower edge Y to −5.000'],
    ['upper right corner', 'the right edge set X to 5.000, at the upper edge Y to 5.000'],
    ['upper left corner', 'the left edge set X to −5.000, at the upper edge Y to 5.000'],
  ])('by hand: a tip of 10 mm at the %s', (origin, says) => {
    expect(
      made(plate, withMachine({ tip: 10 }), { origin })
        .setups.map((q) => q.says)
        .join(' '),
    ).toContain(says);
  });

  test.each([[[5, 8.5, 9.5]], [[9.5, 8.5, 5]]])('a drill that the shop lacks, and its nearest, of %j', (onHand) => {
    const drills = onHand.map((diameter) => ({ name: `${diameter} mm`, diameter }));
    const lacks = (diameter: number) =>
      made(simple([hole('H1', 0, 0, { diameter })]), withMachine({ drills })).notes.filter((n) =>
        n.includes('among your drills'),
      );
    // Through a hole of 8.7 a bolt of 8 has 0.7 to spare, through one of 9.5 it has 1.5: half of 0.8 more every way.
    expect(lacks(8.7)).toEqual([
      'drill 8.7 mm is not among your drills; for H1 the nearest that serves is 9.5 mm, 0.80 mm larger: 1.50 mm of ' +
        'clearance in place of 0.70 mm, so that a part may lie 0.40 mm farther off.',
    ]);
    expect(lacks(9.3)).toEqual([
      'drill 9.3 mm is not among your drills; for H1 the nearest that serves is 9.5 mm, 0.20 mm larger: 1.50 mm of ' +
        'clearance in place of 1.30 mm, so that a part may lie 0.10 mm farther off.',
    ]);
    expect(lacks(8.5)).toEqual([]);
  });

  test('a dividing head turns about the origin, and from a corner about the middle of the plate', () => {
    const dividingHead = { ratio: 40, circles: [15, 16, 17, 18, 19, 20] };
    const ofJob = withMachine({ dividingHead });
    const { dividing: byCorner } = made(plate, ofJob, { origin: 'lower left corner' }).byHand;
    expect(byCorner).toEqual(dividing(plate, dividingHead, { x: 0, y: 0 }, 'pump'));
    const { x, y } = plate.holes[2] ?? { x: 0, y: 0 };
    expect(made(plate, ofJob, { origin: 'H3' }).byHand.dividing?.holes.map((h) => h.angle)).toEqual(
      dividing(plate, dividingHead, { x, y }, 'H3')?.holes.map((h) => expect.closeTo(h.angle, 9)),
    );
  });
});

describe('for programs', () => {
  test('where to turn on the way, and whether all is sound', () => {
    const clamps = [{ from: { x: 85, y: 160 }, to: { x: 95, y: 180 } }];
    const json = (t: MachinistTable) =>
      tableJson(t) as { readonly ok: boolean; readonly rows: readonly { readonly via: readonly number[] | null }[] };
    const one = made(plate, withMachine({ backlash: { x: -1, y: -1 } }), { oneSided: true });
    expect(json(one).rows.map((r) => r.via)).toEqual(one.rows.map((r) => (r.via === null ? null : [r.via.x, r.via.y])));
    expect(json(one).rows.some((r) => r.via !== null)).toBe(true);
    expect(json(made(plate, job)).ok).toBe(true);
    expect(json(made(plate, withMachine({ clamps }))).ok).toBe(false);
    expect(json(made({ ...plate, ok: false }, job)).ok).toBe(false);
  });
});

describe('clamps', () => {
  test('a clamp over a hole is named, one clear of all is not', () => {
    const clamps = [
      { from: { x: 85, y: 160 }, to: { x: 95, y: 180 } },
      { from: { x: 0, y: 0 }, to: { x: 10, y: 10 } },
    ];
    const t = made(plate, withMachine({ clamps }));
    expect(t.clear.map((c) => c.ok)).toEqual([false, true]);
    expect(t.clear[0]).toMatchObject({ clamp: 1, hole: 'H1' });
    expect(t.notes.join(' ')).toMatch(/Clamp 1 is in the way of H1/);
  });

  // A hole of 9 at (110, 55) of the blank, its chamfer 10 wide: 5 mm of it on every side.
  test.each([
    ['left of it', { from: { x: 90, y: 45 }, to: { x: 102, y: 65 } }, 8 - 5],
    ['right of it', { from: { x: 130, y: 65 }, to: { x: 117, y: 45 } }, 7 - 5],
    ['below it', { from: { x: 100, y: 25 }, to: { x: 120, y: 49 } }, 6 - 5],
    ['off its corner', { from: { x: 113, y: 59 }, to: { x: 130, y: 75 } }, 5 - 5],
    ['over it', { from: { x: 108, y: 45 }, to: { x: 130, y: 65 } }, -2 - 5],
  ])('by hand: a clamp %s', (_, clamp, gap) => {
    const [clear] = made(simple([hole('H1', 10, 5)]), withMachine({ clamps: [clamp], allowance: 0 })).clear;
    expect(clear).toMatchObject({ hole: 'H1', op: 'chamfer', gap: expect.closeTo(gap, 9), ok: gap >= 2 });
  });
});
