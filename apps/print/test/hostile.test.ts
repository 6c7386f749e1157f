import { describe, expect, test } from 'vitest';
import { rectanglePath } from './shapes.js';
import { printTemplates, templateFor, templateSvg } from '../src/index.js';
import { input, printed, refused } from './jobs.js';
import { bare, read } from './pdf/reader.js';
import { type Planned, options, outlined, pumpPlate } from './plates.js';

const withPlate = (plate: Planned, more: Partial<typeof options> = {}) =>
  printTemplates({ ...input, plate }, { ...options, what: 'drill', side: 'B', ...more });

describe('options that cannot be met are refused with advice', () => {
  test.each([
    [{ overlap: 300 }, /overlap of 300 mm is more than half/],
    [{ overlap: 2 }, /leaves no room for glue and marks/],
    [{ overlap: Number.NaN }, /overlap must be a length/],
    [{ margin: 90 }, /take smaller margins or larger paper/],
    [{ margin: -1 }, /margin must be a length of zero or more/],
    [{ margin: Infinity }, /margin must be a length/],
    [{ paper: 'A9' }, /no paper 'A9' is known/],
    [{ paper: '\u0000' }, /no paper/],
    [{ paper: 'roll 40 mm' }, /roll 40 mm/],
    [{ sheet: [3, 1] as const }, /no sheet 3,1: sheets run from 1,1 to 1,2/],
    [{ sheet: [0.5, 1] as const }, /no sheet/],
    [
      {
        printer: {
          name: 'p',
          wide: 0.94,
          high: 1,
          skew: 0,
          plusMinus: { wide: 0, high: 0, skew: null },
          date: '',
          paper: '',
        },
      },
      /scaled the page/,
    ],
  ])('%j', async (more, words) => {
    expect((await refused(more)).join(' ')).toMatch(words);
  });

  test.each([
    [{ overlap: 300 }, ['overlap of 11.811 in is more than half', 'take 3/8 in']],
    [{ overlap: 2 }, ['overlap of 0.0787 in leaves no room', 'give it 0.3 in or more']],
    [{ margin: 88.9 }, ['margins of 3.5 in leave', 'smaller margins']],
  ])('an inch job hears of inches: %j', async (more, words) => {
    const said = (await refused({ ...more, speech: { unit: 'in', fraction: null } })).join(' ');
    for (const w of words) expect(said).toContain(w);
    expect(said).not.toMatch(/\d mm/);
  });

  test('all that is wrong is said at once', async () => {
    expect(await refused({ overlap: 1, margin: -1, paper: 'foolscap-ish' })).toHaveLength(3);
  });
});

describe('odd jobs come out right', () => {
  test('zero margins are printed, with a warning that the edge may be lost', async () => {
    const out = await printed({ margin: 0 });
    expect(out.warnings.join()).toMatch(/what falls there is lost/);
  });

  test('a plate of three metres on A4, on a roll and on one sheet', async () => {
    const long: Planned = {
      ...pumpPlate,
      bores: [],
      outline: outlined(rectanglePath(-1500, -200, 1500, 200)),
      holes: pumpPlate.holes.map((h, i) => ({ ...h, x: -1450 + 260 * i })),
    };
    const a4 = await withPlate(long);
    if (!a4.ok) throw new Error(a4.faults.join());
    expect((a4.json.grid?.rows ?? 0) * (a4.json.grid?.columns ?? 0)).toBe(
      a4.json.pages.filter((p) => p.kind === 'tile').length,
    );
    const roll = await withPlate(long, { paper: 'roll 610 mm' });
    expect(roll.ok && roll.json.grid).toMatchObject({ rows: 1, columns: 1 });
    const single = await withPlate(long, { paper: 'single' });
    expect(single.ok && single.json.pages).toHaveLength(1);
  });

  test('more sheets than anyone would join are refused', async () => {
    const huge = await withPlate({ ...pumpPlate, outline: outlined(rectanglePath(-20_000, -20_000, 20_000, 20_000)) });
    expect(huge.ok ? [] : huge.faults).toEqual([expect.stringMatching(/larger paper, a roll/)]);
    const single = await withPlate(
      { ...pumpPlate, outline: outlined(rectanglePath(-20_000, -20_000, 20_000, 20_000)) },
      { paper: 'single' },
    );
    expect(single.ok ? [] : single.faults).toEqual([expect.stringMatching(/longer than a PDF page/)]);
  });

  test('holes off the plate’s outline are still on the paper', async () => {
    const [first, ...rest] = pumpPlate.holes;
    if (first === undefined) throw new Error('holes');
    const out = await withPlate({ ...pumpPlate, holes: [{ ...first, x: 260, y: 0 }, ...rest] });
    if (!out.ok) throw new Error(out.faults.join());
    expect(out.json.pages.flatMap((p) => p.holes ?? [])).toContain('H1');
  });

  test('no holes at all, one tiny hole, two holes in one place', async () => {
    const [first] = pumpPlate.holes;
    if (first === undefined) throw new Error('holes');
    expect((await withPlate({ ...pumpPlate, holes: [] })).ok).toBe(true);
    expect((await withPlate({ ...pumpPlate, holes: [{ ...first, diameter: 0.3 }] })).ok).toBe(true);
    const twins = await withPlate({ ...pumpPlate, holes: [first, { ...first, id: 'H2' }] });
    expect(twins.ok).toBe(true);
  });

  test('two hundred holes close together: every one on the sheets, and a list where lettering finds no room', async () => {
    const holes = Array.from({ length: 196 }, (_, i) => ({
      ...(pumpPlate.holes[0] as Planned['holes'][number]),
      id: `H${i + 1}`,
      feature: `pump.P${i + 1}`,
      diameter: 5,
      x: -97.5 + 15 * (i % 14),
      y: -97.5 + 15 * Math.floor(i / 14),
    }));
    const out = await withPlate({
      ...pumpPlate,
      bores: [],
      holes,
      outline: outlined(rectanglePath(-110, -110, 110, 110)),
    });
    if (!out.ok) throw new Error(out.faults.join());
    expect(new Set(out.json.pages.flatMap((p) => p.holes ?? [])).size).toBe(196);
    expect(out.json.pages.some((p) => p.kind === 'list')).toBe(true);
  });
});

describe('names in any script', () => {
  const named = (name: string): Planned => ({
    ...pumpPlate,
    faces: [name, 'motor'],
    holes: pumpPlate.holes.map((h, i) => (i === 0 ? { ...h, feature: name } : h)),
  });

  test.each([
    ['Насос', []],
    ['αντλία', []],
    ['משאבה', []],
    ['水泵', ['U+6C34', 'U+6CF5']],
    ['مضخة', ['U+0645']],
    ['a\u0000b\u001B[31m\n', ['U+0000', 'U+001B', 'U+000A']],
    ['\u202Edrawkcab', ['U+202E']],
    ['\uD800', ['U+D800']],
    ['<script>&"', []],
    ['x'.repeat(5000), []],
  ])('%j', async (name, codes) => {
    const out = await printTemplates(
      { ...input, job: { ...input.job, name }, plate: named(name) },
      { ...options, what: 'drill', side: 'B', paper: 'single' },
    );
    if (!out.ok) throw new Error(out.faults.join());
    const { pages, metadata } = await read(out.bytes);
    for (const code of codes) {
      expect(out.warnings.join()).toContain(code);
      expect(pages[0]?.text).toContain(bare(code));
    }
    expect(String(metadata['Title'])).not.toMatch(/[\p{Cc}\u202E]/u);
    const drawing = templateFor({ ...input, plate: named(name) }, { what: 'drill', side: 'B' }, options);
    if ('ok' in drawing) throw new Error('refused');
    expect(templateSvg(name, drawing, options).text).not.toMatch(/<script|[\u0000-\u0008\u202E]/);
  });
});
