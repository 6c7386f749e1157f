import { DEGREE, polar } from '@fayplate/core';
import { describe, expect, test } from 'vitest';
import { type Plate, plateJson, plateReport } from '../../src/index.js';
import { sayCure } from '../../src/words/cure.js';
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
    { spots: { Q1: { kind: 'hole', d: 11, at: polar(60, 94 * DEGREE) }, open: { kind: 'bore', d: 400, at: { x: 0, y: 0 } } } },
    { fasten: new Map([['pump', fasten({})], ['motor', fasten({ as: 'tapped', thread: 'M10', engagement: { times: 1 } })]]) },
  );

describe('the verdict', () => {
  test('comes first, says what is wrong by how much, and what cures it', () => {
    expect(verdict(plateOf(colliding()))).toMatch(/^Will not go together: H1 breaks into H2 by 5\.3 mm; turn 8° clockwise/);
  });
  test('a sound plate says what its least metal is', () => {
    expect(verdict(plateOf(soundBench(), { trials: 300 }))).toMatch(/^The plate goes together: all \d+ checks hold; least metal between cuts \d+\.\d\d mm \(H\d and [HC]\d\)\.$/);
  });
  test('a plate that is only too weak does not say that it will not go together', () => {
    const weak = plateOf(soundBench({ limits: { web: 18, edge: { times: 1.5 } } }));
    expect(verdict(weak)).toMatch(/^Goes together, but not soundly: /);
  });
  test('a plate that only may go on says so', () => {
    expect(verdict(plateOf(soundBench({ drilling: 0.5 }), { trials: 500 }))).toMatch(/^May not go together: pump goes on \d\d\.\d times in 100; use the loose fit for pump/);
  });
});

describe('the tables', () => {
  test('failed checks stand first, those that fail alike on one line', () => {
    const plate = plateOf(bench({ spots: ring(3, 50, 0, { kind: 'stud', thread: 'M8', d: 8 }) }, { spots: ring(3, 100, 0, { kind: 'hole', d: 11 }) }, { fasten: new Map([['motor', fasten({ as: 'tapped', thread: 'M10', engagement: { times: 1 } })]]) }));
    const [checks] = tables(plate);
    expect(checks?.rows[0]?.slice(0, 6)).toEqual(['FAILS', 'nut under the other part', 'H1, H2, H3 and motor', '6.80 mm', '≤ 0.00 mm', 'counterbore the plate for the nuts of pump']);
    const states = checks?.rows.map((r) => r[0]) ?? [];
    expect(states.indexOf('holds')).toBe(states.lastIndexOf('FAILS') + 1);
  });
  test('every row has a text for each column', () => {
    for (const table of tables(plateOf(soundBench()))) for (const row of table.rows) expect(row).toHaveLength(table.columns.length);
  });
  test('say which side is seen and which part it faces', () => {
    const captions = tables(plateOf(soundBench())).map((t) => t.caption ?? '');
    expect(captions.join()).toContain('seen from side B (motor) looking at pump');
  });
});

describe('cautions', () => {
  test('each stands once', () => {
    const cautions = blocks(plateOf(soundBench())).flatMap((b) => (b.kind === 'caution' ? [b.text] : []));
    expect(new Set(cautions).size).toBe(cautions.length);
    const all = cautions.join(' ');
    for (const word of ['run-out after assembly', 'half', 'maker', 'torque', 'licensed practice']) expect(all.split(word).length - 1).toBeGreaterThanOrEqual(1);
    expect(all.split('torque')).toHaveLength(2);
    expect(all.split('run-out')).toHaveLength(2);
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
    expect(Object.keys(json)).toEqual(expect.arrayContaining(['thickness', 'clocking', 'holes', 'bores', 'outline', 'checks', 'goes_on', 'clockings', 'alignment', 'ok']));
    expect(Object.keys(json.holes[0] ?? {})).toEqual(expect.arrayContaining(['id', 'feature', 'x', 'y', 'as', 'diameter', 'sink', 'thread', 'depth']));
    expect(Object.keys(json.checks[0] ?? {})).toEqual(expect.arrayContaining(['rule', 'of', 'value', 'limit', 'ok', 'source']));
    expect(json.outline.path).toMatch(/^M .* Z$/);
    expect(json.clockings?.[0]).toEqual({ from: -10, to: 10 });
    expect(Object.keys(json.goes_on)).toEqual(['pump', 'motor']);
  });
  test('survives being written and read', () => {
    expect(JSON.parse(JSON.stringify(json))).toEqual(json);
  });
});
