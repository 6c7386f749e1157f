import { DEGREE, polar } from '@fayplate/core';
import { describe, expect, test } from 'vitest';
import { type Plate, plateJson, plateReport } from '../../src/index.js';
import { sayCure } from '../../src/words/say.js';
import { type Bench, bench, fasten, plateOf, ring, soundBench } from '../support/plate.js';

const mm = { unit: 'mm', fraction: null } as const;
const blocks = (plate: Plate) => plateReport(plate, mm);
const verdict = (plate: Plate): string => {
  const [, second] = blocks(plate);
  return second?.kind === 'verdict' ? second.text : 'no verdict';
};
const tables = (plate: Plate) => blocks(plate).filter((b) => b.kind === 'table');

/** A stud and a bolt 4° beside it, in a part that is open where the nuts sit. */
const colliding = (): Bench =>
  bench(
    { spots: { P1: { kind: 'stud', thread: 'M8', d: 8, stands: 40, at: { x: 0, y: 60 } } } },
    {
      spots: {
        Q1: { kind: 'hole', d: 11, at: polar(60, 94 * DEGREE) },
        open: { kind: 'bore', d: 400, at: { x: 0, y: 0 } },
      },
    },
    {
      fasten: new Map([
        ['pump', fasten({})],
        ['motor', fasten({ as: 'tapped', thread: 'M10', engagement: { times: 1 } })],
      ]),
    },
  );

describe('the verdict', () => {
  test('comes first, says what is wrong by how much, and what cures it', () => {
    expect(verdict(plateOf(colliding()))).toMatch(
      /^Will not go together: H1 breaks into H2 by 5\.3 mm; turn 8° clockwise/,
    );
  });
  test('a sound plate says what its least metal is', () => {
    expect(verdict(plateOf(soundBench(), { trials: 300 }))).toMatch(
      /^The plate goes together: all \d+ checks hold; least metal between cuts \d+\.\d\d mm \(H\d and [HC]\d\)\.$/,
    );
  });
  test('a plate that is only too weak does not say that it will not go together', () => {
    const weak = plateOf(soundBench({ limits: { web: 18, edge: { times: 1.5 } } }));
    expect(verdict(weak)).toMatch(/^Goes together, but not soundly: /);
  });
  test('a plate that only may go on says so', () => {
    expect(verdict(plateOf(soundBench({ drilling: 0.5 }), { trials: 500 }))).toMatch(
      /^May not go together: pump goes on \d\d\.\d times in 100; use the loose fit for pump/,
    );
  });
});

describe('the tables', () => {
  test('failed checks stand first, those that fail alike on one line', () => {
    const plate = plateOf(
      bench(
        { spots: ring(3, 50, 0, { kind: 'stud', thread: 'M8', d: 8 }) },
        { spots: ring(3, 100, 0, { kind: 'hole', d: 11 }) },
        { fasten: new Map([['motor', fasten({ as: 'tapped', thread: 'M10', engagement: { times: 1 } })]]) },
      ),
    );
    const [checks] = tables(plate);
    expect(checks?.rows[0]?.slice(0, 6)).toEqual([
      'FAILS',
      'nut under the other part',
      'H1, H2, H3 and motor',
      '8.40 mm',
      '≤ 0.00 mm',
      'counterbore the plate for the nuts of pump',
    ]);
    const states = checks?.rows.map((r) => r[0]) ?? [];
    expect(states.indexOf('holds')).toBe(states.lastIndexOf('FAILS') + 1);
  });
  test('every row has a text for each column', () => {
    for (const table of tables(plateOf(soundBench())))
      for (const row of table.rows) expect(row).toHaveLength(table.columns.length);
  });
  test('say which side is seen and which part it faces', () => {
    const captions = tables(plateOf(soundBench())).map((t) => t.caption ?? '');
    expect(captions.join()).toContain('seen from side B (motor) looking at pump');
  });
});

describe('cautions', () => {
  // ISO 11228-1 (from memory): 25 kg for one person.
  test('a heavy plate is not lifted alone', () => {
    const said = (thickness: number): string =>
      blocks(
        plateOf(soundBench({ thickness, material: 'steel', outline: { shape: 'round', margin: null, diameter: 300 } })),
      )
        .flatMap((b) => (b.kind === 'caution' ? [b.text] : []))
        .join(' ');
    expect(said(20)).not.toMatch(/one person/);
    expect(said(60)).toMatch(/more than one person should lift/);
  });
  test('each stands once', () => {
    const cautions = blocks(plateOf(soundBench())).flatMap((b) => (b.kind === 'caution' ? [b.text] : []));
    expect(new Set(cautions).size).toBe(cautions.length);
    const all = cautions.join(' ');
    for (const word of ['run-out after assembly', 'half', 'maker', 'torque', 'licensed engineer'])
      expect(all.split(word).length - 1).toBeGreaterThanOrEqual(1);
    expect(all.split('torque')).toHaveLength(2);
    expect(all.split('run-out')).toHaveLength(2);
    expect(all).not.toContain('eye bolts');
  });
  test('of lifting, where the plate has holes for it', () => {
    const said = (what: 'lifting' | 'jacking') =>
      JSON.stringify(blocks(plateOf(soundBench({ extras: [{ what, thread: 'M8', circle: 170, clocks: [0.3] }] }))));
    expect(said('lifting').split('eye bolts')).toHaveLength(2);
    expect(said('jacking')).not.toContain('eye bolts');
  });
});

describe('said as one would across the bench', () => {
  const text = (plate: Plate, unit: 'mm' | 'in' = 'mm'): string =>
    JSON.stringify(plateReport(plate, { unit, fraction: null }));

  test('bolts are bought in their own thread’s lengths, whatever the job is written in', () => {
    expect(text(plateOf(soundBench()), 'in')).toContain('30 mm long');
    const inch = soundBench({
      fasten: new Map([
        ['pump', fasten({ head: 'nut', sunk: 'counterbored' })],
        ['motor', fasten({ as: 'tapped', thread: '3/8-16 UNC', engagement: { times: 1.5 } })],
      ]),
    });
    // Flange 12 and 1.5 d of 9.525: 26.3 to 32 under the head; above an inch they come in quarters, and 1 1/4 in is
    // 31.75.
    expect(text(plateOf(inch))).toContain('1 1/4 in long (26.3 mm to 32.0 mm under the head)');
  });
  test('a bolt too long for a hole that goes through comes out, it does not bottom', () => {
    const thin = plateOf(soundBench({ thickness: 12 }));
    expect(text(thin)).toContain('its end comes out on the far side');
    expect(text(thin)).not.toContain('it bottoms');
  });
  test('the outline is said alike everywhere, with what is raised', () => {
    expect(text(plateOf(soundBench()))).toContain('outline 229 × 229 mm;');
    // 229 mm is 9.0157 in.
    expect(text(plateOf(soundBench()), 'in')).toContain('outline 9.016 × 9.016 in');
    const raised = bench(
      {
        spots: {
          C: { kind: 'bore', d: 60, at: { x: 0, y: 0 } },
          ...ring(4, 60, 0, { kind: 'stud', thread: 'M8', d: 8 }),
        },
        face: { centre: 'C' },
      },
      { spots: {} },
      {
        outline: { shape: 'round', margin: 10.02, diameter: null },
        locate: new Map([
          ['pump', { as: 'register', diameter: { value: 59.95, plusMinus: null }, depth: 3, fit: null }],
        ]),
      },
    );
    // By hand: twice 64.5 and 10.02 is 149.04; 20 and 3 is 23.
    expect(text(plateOf(raised))).toContain('outline 149.04 × 149.04 mm, 23.00 mm thick over the raised spigot');
  });
  test('those that fail alike stand on one line, each hole’s own feature left out', () => {
    const b = bench(
      { spots: {} },
      { spots: ring(3, 60, 0, { kind: 'hole', d: 9 }) },
      { fasten: new Map([['motor', fasten({ as: 'tapped', thread: 'M10', engagement: { times: 1 } })]]) },
    );
    const rows = tables(plateOf(b))[0]?.rows.filter(
      (r) => r[1] === "bolt passes the part's own hole" && r[0] === 'FAILS',
    );
    expect(rows?.map((r) => r[2])).toEqual(['H1, H2 and H3']);
  });
  test('a range that holds throughout, and no turn where none gains anything', () => {
    const open = plateOf(
      soundBench({
        clocking: { search: [-4 * DEGREE, 3 * DEGREE] },
        fasten: new Map([
          ['pump', fasten({})],
          ['motor', fasten({ as: 'tapped', thread: 'M6', engagement: { times: 1 } })],
        ]),
      }),
    );
    expect(text(open)).toContain('At every angle from -4.000° to 3.000° (clockwise as drawn)');
    expect(text(open)).not.toContain('With motor turned');
    const apart = bench(
      { spots: ring(3, 40, 0, { kind: 'hole', d: 9 }) },
      { spots: ring(3, 120, 0, { kind: 'hole', d: 9 }) },
      { clocking: { search: [-60 * DEGREE, 60 * DEGREE] }, bore: { diameter: 40, side: 'through', depth: null } },
    );
    expect(plateOf(apart).clocking).toBe(0);
  });
  test('reamed holes with their limits, H7 for 8: 8.000 to 8.015 (ISO 286-2)', () => {
    const dowels = {
      D1: { kind: 'dowel' as const, d: 8, at: { x: 60, y: 0 } },
      D2: { kind: 'dowel' as const, d: 8, at: { x: -60, y: 0 } },
    };
    const plate = plateOf(
      bench(
        { spots: { ...dowels, ...ring(3, 40, 1, { kind: 'stud', thread: 'M8', d: 8 }) } },
        { spots: {} },
        { locate: new Map([['pump', { as: 'own dowels', features: ['D1', 'D2'], second: 'slot' }]]) },
      ),
    );
    expect(text(plate)).toContain('dowel 8.000 to 8.015');
    expect(text(plate)).toMatch(/slot 8\.000 to 8\.015, \d/);
  });
});

describe('what is said of a cure', () => {
  test.each([
    [{ kind: 'turn', by: 4 * DEGREE, clean: true }, 'turn 4° clockwise'],
    [{ kind: 'turn', by: -0.5 * DEGREE, clean: true }, 'turn 0.5° anticlockwise'],
    [{ kind: 'thickness', to: 24, clean: true }, 'make the plate 24.0 mm thick'],
    [{ kind: 'thread', face: 'motor', thread: 'M8', clean: true }, 'use M8 for motor'],
    [{ kind: 'fit', face: 'pump', fit: 'close', clean: true }, 'use the close fit for pump'],
    [{ kind: 'margin', to: 14, clean: true }, 'make the margin 14.0 mm'],
  ] as const)('%j: %s', (cure, words) => {
    expect(sayCure(cure, mm)).toBe(words);
  });
});

describe('the document', () => {
  const json = plateJson(plateOf(soundBench({ clocking: { search: [-10 * DEGREE, 10 * DEGREE] } })));
  test('has every field of its contract, in millimetres and degrees', () => {
    expect(json.frame).toBe('seen from side B, looking at the first face');
    expect(Object.keys(json)).toEqual(
      expect.arrayContaining([
        'thickness',
        'clocking',
        'holes',
        'bores',
        'outline',
        'checks',
        'goes_on',
        'clockings',
        'alignment',
        'ok',
      ]),
    );
    expect(Object.keys(json.holes[0] ?? {})).toEqual(
      expect.arrayContaining(['id', 'feature', 'x', 'y', 'as', 'diameter', 'sink', 'thread', 'depth']),
    );
    expect(Object.keys(json.checks[0] ?? {})).toEqual(
      expect.arrayContaining(['rule', 'of', 'value', 'limit', 'ok', 'source']),
    );
    expect(json.outline.path).toMatch(/^M .* Z$/);
    expect(json.clockings?.[0]).toEqual({ from: -10, to: 10 });
    expect(Object.keys(json.goes_on)).toEqual(['pump', 'motor']);
  });
  test('survives being written and read', () => {
    expect(JSON.parse(JSON.stringify(json))).toEqual(json);
  });
});
