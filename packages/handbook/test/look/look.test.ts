import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { drills, look, lookKinds, materials, papers, threads } from '../../src/index.js';

const json = (kind: string, what: string): Readonly<Record<string, unknown>> => {
  const found = look(kind, what);
  if (!found.ok) throw new Error(found.why);
  return found.json;
};

describe('the handbook answers', () => {
  // ASME B1.1, B18.2.8 and tap drill charts; ISO 261, 273 and 2306; ISO 286; ISO 216: as in the tables' own tests.
  test.each([
    ['thread', '3/8 BSW', { angle: expect.closeTo(55, 9) }],
    ['thread', '0 BA', { angle: expect.closeTo(47.5, 9) }],
    ['thread', 'M8', { angle: expect.closeTo(60, 9) }],
    [
      'thread',
      '3/8-16 UNC',
      { name: '3/8-16 UNC', major: expect.closeTo(9.525, 9), tpi: 16, angle: expect.closeTo(60, 9) },
    ],
    ['Threads', 'm10', { name: 'M10', pitch: 1.5, tpi: null }],
    ['drill', '#7', { name: '#7', diameter: expect.closeTo(5.1054, 9), error: 0 }],
    ['drill', '10.31', { name: '13/32', error: expect.closeTo(0.00875, 9) }],
    ['drill', '.2571 in', { name: 'F' }],
    ['tap drill', '3/8-16', { drill: '5/16', percent: expect.closeTo(76.98, 1), within_class: true }],
    ['tap-drill', 'M10', { drill: '8.5 mm' }],
    ['tap', 'M10 at 60 %', { drill: '8.8 mm', asked_percent: 60 }],
    ['clearance', 'M10', { fit: 'normal', diameter: 11, drill: '11 mm' }],
    ['clearance', 'M10 close', { fit: 'close', diameter: 10.5 }],
    ['clearance', '3/8-16 UNC loose', { drill: '27/64' }],
    ['hardware', 'M10', { nut: expect.objectContaining({ across_flats: 16 }) }],
    // ISO 8734 m6 on 8: 8.006 to 8.015; H7: 8.000 to 8.015 (ISO 286). ASME B18.8.2: 5/16 is 0.3126 to 0.3128 in about
    // 0.3127.
    [
      'dowel',
      '8',
      {
        diameter: 8,
        pin: { least: expect.closeTo(8.006, 9), most: expect.closeTo(8.015, 9) },
        hole: { name: 'H7', least: 8, most: expect.closeTo(8.015, 9) },
        play: { least: expect.closeTo(-0.015, 9), most: expect.closeTo(0.009, 9) },
      },
    ],
    [
      'dowels',
      '5/16',
      {
        diameter: expect.closeTo(7.9375, 9),
        pin: { least: expect.closeTo(0.3126 * 25.4, 9), most: expect.closeTo(0.3128 * 25.4, 9) },
      },
    ],
    ['tapdrill', 'M10', { drill: '8.5 mm' }],
    ['fit', 'H7/g6 100 mm', { clearance: { least: expect.closeTo(0.012, 9), most: expect.closeTo(0.069, 9) } }],
    ['fit', '60 H7', { nominal: 60 }],
    ['material', 'Aluminum', { name: 'aluminium', density: 2700 }],
    ['paper', 'a4', { name: 'A4', width: 210, height: 297 }],
  ])('%s %s', (kind, what, want) => expect(json(kind, what)).toMatchObject(want));

  test('every report opens with its answer and ends with its source', () => {
    for (const [kind, what] of [
      ...threads.flatMap((t) => ['thread', 'tap drill', 'clearance'].map((k) => [k, t.name] as const)),
      ...drills()
        .filter((_, i) => i % 17 === 0)
        .map((d) => ['drill', d.name] as const),
      ...papers.map((p) => ['paper', p.name] as const),
      ...materials.rows.map((m) => ['material', m.name] as const),
      ['hardware', 'M12'] as const,
      ['dowel', '1/4 in'] as const,
      ['fit', 'H7/p6 30'] as const,
    ]) {
      const found = look(kind, what);
      expect([kind, what, found.ok]).toEqual([kind, what, true]);
      if (!found.ok) continue;
      expect(found.report[0]?.kind).toBe('heading');
      const last = found.report.at(-1);
      expect([what, last?.kind === 'paragraph' && last.text.startsWith('Source: ')]).toEqual([what, true]);
      for (const block of found.report)
        for (const row of block.kind === 'table' ? block.rows : [])
          expect(row).toHaveLength(block.kind === 'table' ? block.columns.length : 0);
    }
  });

  test('JSON survives a round trip: no undefined, no infinity', () => {
    for (const [kind, what] of [
      ['thread', '2 BA'],
      ['drill', '9'],
      ['clearance', '4-4 UNC'],
      ['tap drill', '0 BA'],
      ['hardware', '#10-24'],
      ['fit', 'H7 8'],
    ] as const)
      expect(JSON.parse(JSON.stringify(json(kind, what)))).toEqual(json(kind, what));
  });
});

describe('what it does not have is refused with what comes closest', () => {
  test.each([
    ['thread', 'M13', 'M12'],
    ['dowel', '9 mm', '8 mm'],
    ['dowel', '0.31 in', '5/16 in'],
    ['dowel', 'thick', '8 mm'],
    ['thread', 'M100', 'M64'],
    ['thread', '18ba', '16 BA'],
    ['thread', '3/8-30 bsf', '3/8 BSF'],
    ['thread', '3/8-17 UNC', '3/8-16 UNC'],
    ['tap drill', 'M10 12 %', 'M10 75 %'],
    ['material', 'alumnium', 'aluminium'],
    ['paper', 'Lettr', 'Letter'],
    ['thred', 'M10', 'thread'],
    ['fit', 'H7', 'H7/g6 60 mm'],
  ])('%s %s', (kind, what, nearest) => {
    const found = look(kind, what);
    expect(found.ok ? null : found.nearest).toContain(nearest);
    expect(found.ok ? '' : found.why).not.toBe('');
  });
  test('any words at all get an answer or a refusal', () => {
    fc.assert(
      fc.property(fc.constantFrom(...lookKinds), fc.string({ maxLength: 80 }), (kind, what) => {
        const found = look(kind, what);
        expect(found.ok || found.why.length > 0).toBe(true);
      }),
      { seed: 20_261, numRuns: 1000 },
    );
    expect(look('constructor', 'M10').ok).toBe(false);
    expect(look('', '').ok).toBe(false);
  });
});
