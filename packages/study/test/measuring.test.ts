import { describe, expect, test } from 'vitest';
import { answer } from '../src/index.js';
import { example, world } from './support.js';

interface Said {
  readonly pages: readonly { readonly of: string; readonly numbers: readonly number[] }[];
  readonly readings: readonly { readonly of: string; readonly number: number; readonly reading: string }[];
}
const sheetsOf = async (job: string): Promise<Said> => {
  const found = await answer(job, 'print', { what: 'readings' }, world);
  expect([found.exit, found.error]).toEqual([0, null]);
  expect(found.files).toHaveLength(1);
  return found.json as unknown as Said;
};

const bare = `
job: Bench
units: mm
instruments: { caliper: ± 0.05 mm }
faces:
  pump:
    viewed: from outside
    centre: spigot
    up: P1
    features:
      spigot: { kind: spigot }
      P1: { kind: stud, clock: 12 }
      P2: { kind: stud, clock: 4 }
      P3: { kind: stud, clock: 8 }
    readings: []
`;

describe('measuring sheets', () => {
  test('before anything is read: the plan, with each diameter before the first reading that touches its rim', async () => {
    const { readings, pages } = await sheetsOf(bare);
    expect(new Set(pages.map((p) => p.of))).toEqual(new Set(['pump']));
    expect(readings.map((r) => r.number)).toEqual(readings.map((_, k) => k + 1));
    const texts = readings.map((r) => r.reading);
    for (const id of ['spigot', 'P1', 'P2', 'P3']) {
      const first = texts.findIndex((t) => !t.startsWith('dia ') && t.split(' ').includes(id));
      expect(texts.indexOf(`dia ${id}`)).toBeGreaterThanOrEqual(0);
      expect(texts.indexOf(`dia ${id}`)).toBeLessThan(first);
    }
  });

  test('what is already read is not asked for again while others are missing', async () => {
    const some = bare.replace(
      'readings: []',
      'readings: [dia P2 = 10 by caliper, dia spigot = 50 by caliper, between P2 spigot = 30 by caliper]',
    );
    const texts = (await sheetsOf(some)).readings.map((r) => r.reading);
    expect(texts).not.toContain('dia P2');
    expect(texts.length).toBeGreaterThan(3);
  });

  test('of a job that is measured: every reading again, then those of the drilled plate', async () => {
    const { readings, pages } = await sheetsOf(example('lift-pump'));
    expect([...new Set(pages.map((p) => p.of))]).toEqual(['pump', 'motor', 'drilled plate']);
    expect(readings.filter((r) => r.of === 'pump').length).toBeGreaterThan(10);
    expect(readings.some((r) => r.of === 'drilled plate' && /H\d/.test(r.reading))).toBe(true);
    for (const { reading } of readings) expect(reading).not.toMatch(/=|±/);
    for (const { numbers } of pages) expect(numbers.length).toBeLessThanOrEqual(8);
  });
});

describe('each part alone', () => {
  test('a file for each part, and none for one that its readings do not fix', async () => {
    const pump = example('lift-pump');
    const both = await answer(pump, 'print', { what: 'part', out: 'check.pdf' }, world);
    expect([both.exit, both.error]).toEqual([0, null]);
    expect(both.files.map((f) => f.name)).toEqual(['check-pump.pdf', 'check-motor.pdf']);
    const none = await answer(bare, 'print', { what: 'part' }, world);
    expect([none.exit, none.error]).toEqual([
      2,
      expect.stringMatching(/no part has two features that its readings fix/),
    ]);
  });
});

describe('depths for the drill stop', () => {
  test('rest on the plate of the job, and say the verdict as every sheet does', async () => {
    const pump = example('lift-pump');
    const found = await answer(pump, 'print', { what: 'depths', trials: 100 }, world);
    expect([found.exit, found.error]).toEqual([0, null]);
    expect(found.json).toMatchObject({ what: 'depths', verdict: { answer: 'yes' } });
    expect((await answer(bare, 'print', { what: 'depths' }, world)).exit).toBe(2);
  });
});

describe('the assembly sheet', () => {
  test('is one page, says the verdict, and tells what is out of reach later; no plate, no sheet', async () => {
    const pump = example('lift-pump');
    const found = await answer(pump, 'print', { what: 'assembly', trials: 100 }, world);
    expect([found.exit, found.error]).toEqual([0, null]);
    expect(found.json).toMatchObject({
      what: 'assembly',
      pages: 1,
      assembly: { order: ['pump', 'motor'], because: 'covered' },
      verdict: { answer: 'yes' },
    });
    expect(found.files.map((f) => f.name)).toEqual(['heron-lane-lift-pump-assembly.pdf']);
    expect(JSON.stringify(found.report)).toContain('Out of reach once motor is on');
    const refused = await answer(bare, 'print', { what: 'assembly' }, world);
    expect([refused.exit, refused.error]).toEqual([2, expect.stringContaining('no `plate:` section')]);
  });
});

describe('the drawing for another shop', () => {
  const pump = example('lift-pump');
  test('one sheet on the paper that holds it, as PDF or SVG', async () => {
    const found = await answer(pump, 'print', { what: 'drawing', trials: 100 }, world);
    expect([found.exit, found.error]).toEqual([0, null]);
    expect(found.json).toMatchObject({
      what: 'drawing',
      paper: 'ANSI B',
      standard: 'ASME',
      verdict: { answer: 'yes' },
    });
    const drawn = await answer(pump, 'print', { what: 'drawing', svg: true, paper: 'A3', trials: 100 }, world);
    expect(drawn.files.map((f) => f.name)).toEqual(['heron-lane-lift-pump-drawing.svg']);
    expect(String(drawn.files[0]?.content)).toMatch(/^<svg/);
  });
  test('a sheet that is too small, or no paper at all, is refused in words', async () => {
    const small = await answer(pump, 'print', { what: 'drawing', paper: 'A5', trials: 100 }, world);
    expect([small.exit, small.error]).toEqual([2, expect.stringContaining('does not fit on A5')]);
    const none = await answer(pump, 'print', { what: 'drawing', paper: 'A33', trials: 100 }, world);
    expect([none.exit, none.error]).toEqual([2, expect.stringContaining('no such paper')]);
  });
});

describe('a plate of two pieces', () => {
  const cutter = example('chaff-cutter');
  test('every command on the plate answers on both, with one verdict; a file for each', async () => {
    const both = await answer(cutter, 'print', { what: 'drill', out: 'out/drill.pdf', trials: 100 }, world);
    expect([both.exit, both.error]).toEqual([0, null]);
    expect(both.files.map((f) => f.name)).toEqual(['out/ring-drill.pdf', 'out/plate-drill.pdf']);
    expect(both.json).toMatchObject({ verdict: { answer: 'yes' }, pieces: { ring: {}, plate: {} } });
    expect(both.report.filter((b) => b.kind === 'verdict')).toHaveLength(1);
  });
  test('--piece asks for one of them; a name that it has not is refused, and so is --piece on a plate of one', async () => {
    const one = await answer(cutter, 'table', { piece: 'ring', csv: true, trials: 100 }, world);
    expect([one.exit, one.error]).toEqual([0, null]);
    expect(one.instead).toContain('H13');
    const none = await answer(cutter, 'table', { piece: 'rig' }, world);
    expect([none.exit, none.error]).toEqual([2, expect.stringContaining('there are ring and plate')]);
    const pump = example('lift-pump');
    expect((await answer(pump, 'table', { piece: 'ring' }, world)).error).toContain('of one piece');
    expect((await answer(cutter, 'table', { csv: true }, world)).error).toContain('--piece ring');
  });
  test('as one plate no angle does, and two pieces are what is proposed', async () => {
    const from = cutter.indexOf('  pieces:');
    const [single = ''] = (cutter.slice(0, from) + cutter.slice(cutter.indexOf('  bore:', from))).split('\ndrilled:');
    const found = await answer(single, 'plate', { trials: 100 }, world);
    expect(found.exit).toBe(1);
    expect(JSON.stringify(found.report)).toContain('Two pieces, a ring and a plate');
  });
});
