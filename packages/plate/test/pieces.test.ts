import { DEGREE } from '@fayplate/core';
import type { PiecesSpec } from '@fayplate/job';
import { layoutFace, usedPattern } from '@fayplate/layout';
import { locateFace } from '@fayplate/survey';
import { describe, expect, test } from 'vitest';
import { type Plate, assemblyReport, bringHardware, centreWords, designPlate, pieceJobs } from '../src/index.js';
import { type Bench, bench, fasten, plateOf, ring } from './support/plate.js';

const pieces: PiecesSpec = {
  first: 20,
  names: ['ring', 'plate'],
  screws: { thread: 'M8', circle: 196, clocks: [60, -30, -120, 150].map((d) => d * DEGREE) },
  dowels: { diameter: 8, circle: 196, clocks: [15 * DEGREE, 195 * DEGREE] },
};
/** Twelve M10 studs with sunk nuts on 150 mm, four M10 bolts on 152 mm. */
const crowded = (more: object = {}): Bench =>
  bench(
    {
      spots: {
        C: { kind: 'spigot', d: 80, at: { x: 0, y: 0 }, stands: 3 },
        ...ring(12, 75, Math.PI / 2, { kind: 'stud', thread: 'M10', d: 10, stands: 19.5 }),
      },
      face: { centre: 'C' },
    },
    {
      spots: {
        C: { kind: 'spigot', d: 110, at: { x: 0, y: 0 }, stands: 3 },
        ...ring(4, 76, Math.PI / 2, { kind: 'hole', thread: 'M10', d: 11 }),
      },
      face: { centre: 'C', flange: 12 },
    },
    {
      thickness: 38,
      bore: { diameter: 40, side: 'through', depth: null },
      fasten: new Map([
        ['pump', fasten({ head: 'nut', sunk: 'counterbored', washer: true })],
        ['motor', fasten({ as: 'tapped', thread: 'M10', engagement: { times: 1 } })],
      ]),
      outline: { shape: 'round', margin: null, diameter: 230 },
      ...more,
    },
  );

const made = (b: Bench): readonly [Plate, Plate] => {
  const jobs = pieceJobs({ ...b.job, plate: b.job.plate === null ? null : { ...b.job.plate, pieces } }, 38);
  const plates = (jobs ?? []).map(({ job }) => {
    const used = new Map(
      job.faces.map((f) => {
        const own = b.used.get(f.name);
        if (own !== undefined) return [f.name, own] as const;
        // The joint is drawn: its own readings give it.
        const located = locateFace({ face: f, instruments: job.instruments }, { next: false });
        const found = usedPattern(f, located, layoutFace(f, located));
        if (!found.ok) throw new Error(found.why);
        return [f.name, found.used] as const;
      }),
    );
    const designed = designPlate(job, used, { stack: null, trials: 100, seed: 1 });
    if (!designed.ok) throw new Error(designed.faults.join('\n'));
    return designed.plate;
  });
  return plates as unknown as readonly [Plate, Plate];
};

describe('two pieces', () => {
  test('one plate has room at no angle; the two keep the patterns apart', () => {
    const whole = plateOf(crowded({ clocking: { search: [-Math.PI, Math.PI] } }), { trials: 100 });
    // A counterbore of 24 and a hole of 8.5, each at least half a diameter apart, want 12 + 4.25 + 4.25 between
    // centres; studs 30° apart on 75 leave at most 2 · 75.5 · sin 7.5° = 19.7.
    expect(whole.turning.spans).toEqual([]);
    const [one, two] = made(crowded());
    for (const p of [one, two]) expect(p.checks.filter((c) => !c.ok && c.id === 'web-between-cuts')).toEqual([]);
    expect([one.thickness, two.thickness]).toEqual([20, 18]);
  });
  test.each([
    ['mm', /\bin\b/],
    ['in', /\bmm\b/],
  ] as const)('the places from the drawing are said in the unit of a job in %s', (units, never) => {
    const { job } = crowded();
    const jobs = pieceJobs({ ...job, units, plate: job.plate === null ? null : { ...job.plate, pieces } }, 38) ?? [];
    const drawn = jobs
      .flatMap((p) => p.job.faces.flatMap((f) => f.readings))
      .filter((r) => r.id.startsWith('drawing '));
    expect(drawn.length).toBeGreaterThan(8);
    for (const r of drawn) expect([r.unit, never.test(r.text)]).toEqual([units, false]);
  });

  test('screws and dowels lie in the same places of both, as drawn: by hand 98 at 60°', () => {
    const [one, two] = made(crowded());
    const at = (p: Plate, of: string) => p.holes.find((h) => h.feature?.endsWith(of) === true);
    const [a, b] = [at(one, '.S1'), at(two, '.S1')];
    expect([a?.x, a?.y].map((v) => v?.toFixed(6))).toEqual([49, 49 * Math.sqrt(3)].map((v) => v.toFixed(6)));
    expect([b?.x, b?.y].map((v) => v?.toFixed(6))).toEqual([a?.x, a?.y].map((v) => v?.toFixed(6)));
    expect(a).toMatchObject({ as: 'tapped', thread: { name: 'M8' } });
    expect(b).toMatchObject({ as: 'clearance', sink: { kind: 'counterbored', side: 'B' } });
    const dowels = (p: Plate) =>
      p.holes.filter((h) => h.as === 'dowel').map((h) => [h.x.toFixed(6), h.y.toFixed(6), h.diameter]);
    expect(dowels(one)).toEqual(dowels(two));
    expect(dowels(one)[0]).toEqual([
      (98 * Math.cos(15 * DEGREE)).toFixed(6),
      (98 * Math.sin(15 * DEGREE)).toFixed(6),
      8,
    ]);
  });
  test('the joint is checked like any other: its screws’ thread and their chance to enter', () => {
    const [one, two] = made(crowded());
    // 18 − 8.5 of counterbore under the head is 9.5; aluminium wants 2 d of M8, 16 mm, and no screw of 25.5 to 28.25 is
    // stocked: cut to fit. In steel 1 d is enough, and 20 long leaves 10.5, 1.31 d. Both pieces count the same screw.
    const value = (p: Plate, id: string) => p.checks.find((c) => c.id === id)?.value;
    expect(value(one, 'plate-thread')).toBeCloseTo(value(two, 'part-thread') ?? Number.NaN, 6);
    const steel = made(crowded({ material: 'mild steel' }));
    expect(value(steel[0], 'plate-thread')).toBeCloseTo(10.5 / 8, 6);
    expect(value(steel[1], 'part-thread')).toBeCloseTo(10.5 / 8, 6);
    expect(one.goesOn.get('the plate')?.probability).toBe(1);
    expect(two.goesOn.get('the ring')?.probability).toBe(1);
  });
  test('each is called by its name, its joint is drawn and not measured, and what joins them is bought once', () => {
    const speech = { unit: 'mm', fraction: null } as const;
    const [one, two] = made(crowded({ material: 'mild steel' }));
    const { job } = crowded({ material: 'mild steel' });
    const [ring, plate] = pieceJobs({ ...job, plate: { ...job.plate!, pieces } }, 38)!.map((p) => p.job);
    expect(centreWords(one, speech)).toBe('Centres: pump as measured; the plate as drawn.');
    expect(centreWords(two, speech)).toBe('Centres: the ring as drawn; motor as measured.');
    const bought = (p: Plate, of: typeof ring) =>
      bringHardware(p, of!, [], null, speech).rows.map((r) => r.slice(0, 4));
    // Nuts and washers for twelve studs; nothing of the joint.
    expect(bought(one, ring).map(([count, what]) => `${count} ${what}`)).toEqual(['12 × nut', '12 × washer']);
    // A pin goes through 18 and two diameters into the ring, 34; the next that is sold below is 32 (ISO 8734, from
    // memory).
    expect(bought(two, plate)).toContainEqual(['2 ×', 'dowel', '8 mm', '32 mm']);
    expect(bought(two, plate)).toContainEqual(['4 ×', 'cap screw', 'M8 × 1.25', '20 mm']);
    const steps = (p: Plate, of: typeof ring) =>
      assemblyReport(p, of!, null, { ...speech, atBench: true })
        .flatMap((b) => (b.kind === 'table' && b.columns[0]?.title === 'Step' ? b.rows : []))
        .map((r) => `${r[1]}. ${r[2]}`)
        .join(' ');
    expect(steps(one, ring)).toMatch(/The ring onto pump\..*The plate onto the ring\. Its own sheets have its screws/);
    expect(steps(one, ring)).not.toMatch(/ the plate onto the plate|M8/);
    expect(steps(two, plate)).toMatch(
      /Fasten the ring: 4 cap screws M8 × 20 mm.*Set the plate true, then dowel it\. Tap the plate over.*drill and ream H9 and H10 through both/,
    );
    expect(steps(two, plate)).not.toMatch(/true, tight\..*tighten them fully now/);
  });
  test('a plate of one piece has none', () => {
    expect(pieceJobs(crowded().job, 38)).toBe(null);
  });
});
