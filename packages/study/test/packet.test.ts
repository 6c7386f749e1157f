import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { packetPdf, press, sheets } from '@fayplate/print';
import { describe, expect, test } from 'vitest';
import { type Options, type World, answer } from '../src/index.js';
import type { PrintSection } from '../src/printing.js';
import { example, letters, root, textsIn } from './support.js';

const examples = readdirSync(join(root, 'examples'), { withFileTypes: true })
  .filter((d) => d.isDirectory())
  .map((d) => d.name)
  // One is not measured yet: there is no plate to make a packet of.
  .filter((name) => !example(name).includes('seller: ±'));

/** The sections that are handed to the press, in their order. */
const sectionsOf = async (text: string, options: Options = {}): Promise<readonly PrintSection[]> => {
  let handed: readonly PrintSection[] = [];
  const world: World = {
    lettering: () => Promise.resolve(letters),
    sheets: () => Promise.resolve(sheets),
    press: () => {
      const own = press(() => Promise.resolve(letters));
      return Promise.resolve({
        ...own,
        finish: (sections) => {
          handed = sections;
          return own.finish(sections);
        },
      });
    },
  };
  const found = await answer(text, 'packet', { trials: 100, ...options }, world);
  expect([found.error, found.faults, found.thrown]).toEqual([null, [], undefined]);
  return handed;
};

const wordsIn = (texts: readonly string[]): number =>
  texts
    .join(' ')
    .split(/\s+/)
    .filter((w) => w !== '').length;

const laid = async (sections: readonly PrintSection[], paper = 'A4') => {
  const made = await packetPdf(sections, { job: 'x', paper, date: null, lettering: letters });
  if (!made.ok) throw new Error(made.faults.join());
  return made;
};

/** What stands before the templates. */
const beforeTemplates = (sections: readonly PrintSection[]): readonly PrintSection[] =>
  sections.filter((s) => s.behind !== true);

/** Job, section and page number at the foot of every page. */
const FOOT = 12;

interface Table {
  readonly rows?: readonly { readonly n: number }[];
}

describe('the short packet', () => {
  test.each(['A4', 'Letter'])(
    'of the lift pump takes five pages and 1,500 words before its templates, on %s',
    async (paper) => {
      const sections = beforeTemplates(await sectionsOf(example('lift-pump')));
      const { pages } = await laid(sections, paper);
      expect(pages).toBeLessThanOrEqual(5);
      expect(
        wordsIn([...sections.flatMap(textsIn), ...sections.map((s) => s.title)]) + pages * FOOT,
      ).toBeLessThanOrEqual(1500);
    },
  );

  test.each(examples)(
    'of %s: the answer on one page, what to bring on the next, then a sheet for each setting',
    async (name) => {
      const sections = beforeTemplates(await sectionsOf(example(name)));
      const titles = sections.map((s) => s.title);
      expect(titles.slice(0, 2)).toEqual(['Summary', 'Bring']);
      expect(titles.length).toBeGreaterThan(2);
      for (const title of titles.slice(2))
        expect(title).toMatch(/^On the machine, side [AB] uppermost$|^Work on the parts$/);
      const { contents } = await laid(sections);
      expect(contents.slice(0, 3).map((c) => c.page)).toEqual([1, 2, 3]);
      const kinds = sections[0]?.items.flatMap((i) => (i.kind === 'report' ? i.report.map((b) => b.kind) : [i.kind]));
      expect(kinds?.[0]).toBe('verdict');
      expect(kinds).toContain('picture');
      expect(kinds?.at(-1)).toBe('caution');
    },
  );

  test.each(examples)('of %s: each cut of the table once, numbered, with a box, at 2.5 mm', async (name) => {
    const sections = await sectionsOf(example(name));
    const cuts = sections
      .slice(2)
      .flatMap((s) =>
        s.items.flatMap((i) =>
          i.kind === 'report'
            ? i.report.flatMap((b) =>
                b.kind === 'table' && b.cutsOf !== undefined ? [{ table: b, capital: i.capital }] : [],
              )
            : [],
        ),
      );
    expect(cuts.every((c) => c.capital === 2.5)).toBe(true);
    const { json } = await answer(example(name), 'table', { trials: 100 }, {
      lettering: () => Promise.resolve(letters),
    } as World);
    // A plate of several pieces has a packet and a table for each; the one that was handed on last is looked at.
    const { rows, pieces = {} } = json as unknown as Table & { readonly pieces?: Readonly<Record<string, Table>> };
    const tables = rows === undefined ? Object.values(pieces).map((p) => p.rows ?? []) : [rows];
    expect(tables.map((t) => t.map((r) => r.n))).toContainEqual(
      cuts.flatMap((c) => c.table.rows.map((r) => Number(r[0]))),
    );
  });

  test('counts what the lift pump asks for: seven nuts and washers, four bolts of 30 mm, one gasket sheet', async () => {
    const [, bring] = await sectionsOf(example('lift-pump'));
    const words = bring === undefined ? '' : textsIn(bring).join(' ');
    // By hand: bolts pass a flange of 14 mm and take 1.5 × 10 in the plate, 29 mm; 30 is the next that is sold.
    expect(words).toMatch(/4 × bolt M10 × 1.5 30 mm H8, H9, H10 and H11/);
    expect(words).toMatch(/7 × nut 3\/8-16 UNC/);
    expect(words).toMatch(/7 × washer 0.812 × 0.065 in/);
    expect(words).toMatch(/1 × gasket sheet .* 0.031 in thick +pump/);
    expect(words).toMatch(/boring head to 4.25 in bore C1 ◆/);
    expect(words).not.toMatch(/centre drill 3 spot [^◆]{0,12}◆/);
  });

  test('prints all the rest behind a sheet named Appendix where it is asked for, and nothing twice', async () => {
    const short = await sectionsOf(example('lift-pump'));
    const full = await sectionsOf(example('lift-pump'), { full: true });
    // With all the contents above it the plate may shrink less, so that it can still be read.
    const but = (s: (typeof short)[number]) => ({ ...s, least: null });
    expect(full.slice(0, short.length).map(but)).toEqual(short.map(but));
    const rest = full.slice(short.length);
    expect(rest[0]?.title).toBe('Appendix');
    expect(rest.every((s) => s.behind === true)).toBe(true);
    // How it goes together is wanted once plate and gaskets are made.
    expect(short.filter((s) => s.behind === true).map((s) => s.title)).toEqual([
      'Putting it together: pump, plate, motor',
    ]);
    expect(rest.map((s) => s.title)).toEqual(
      expect.arrayContaining(['Centres of pump', 'Layout of motor', 'Stack', 'Plate', 'Proof']),
    );
    expect(rest.map((s) => s.title)).not.toContain('Putting it together: pump, plate, motor');
    const tables = rest.flatMap((s) => s.items.flatMap((i) => (i.kind === 'report' ? i.report : [])));
    expect(tables.some((b) => b.kind === 'table' && b.cutsOf !== undefined)).toBe(false);
  });

  test('of a plate that is drilled has its proof, which the verdict leads to', async () => {
    const printed = await sectionsOf(example('hay-hoist'));
    expect(printed.filter((s) => s.behind === true).map((s) => s.title)).toEqual([
      'Proof',
      'Putting it together: hoist, plate, frame',
    ]);
    const words = JSON.stringify(printed[0]);
    expect(words).toContain('(see Proof)');
    expect(words).not.toContain('the proof');
    // The ways to go on, the best first, and the places of what is left by that one.
    const [proof] = printed.filter((s) => s.title === 'Proof');
    expect(JSON.stringify(proof)).toMatch(/What can be done.*What is left to drill.*Zero at H1/);
  });
});
