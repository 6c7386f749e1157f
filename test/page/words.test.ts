import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { inBrowser, whyNot } from '../../apps/page/test/support/chromium.js';
import { typeSection } from '../../apps/page/test/support/form.js';
import { goTo, openPage, quiet, textOf } from '../../apps/page/test/support/page.js';
import { type Said, partOf, said, without } from '../../apps/page/test/support/said.js';
import { built } from './built.js';

const example = (name: string): string =>
  readFileSync(join(import.meta.dirname, '../../examples', name, 'job.yaml'), 'utf8');

interface Case {
  readonly job: string;
  readonly screen: string;
  readonly title: string;
  /** The section of the file that the form is of. */
  readonly form: readonly string[];
  /** Its keys that are typed; all where not said. */
  readonly keys?: readonly string[];
  /** What is typed; the example's own where not said. */
  readonly typed?: Readonly<Record<string, Said>>;
  /** The command that answers. */
  readonly command: string;
}

const all = 'Everything the job can say about';
const rest = `${all} work on the parts, printing and the drawing`;
const cases: readonly Case[] = [
  {
    job: 'apple-mill',
    screen: 'Measure',
    title: `${all} side`,
    form: ['faces', 'side'],
    keys: ['flange', 'shaft', 'rim'],
    command: 'locate',
  },
  {
    job: 'three-to-four',
    screen: 'Measure',
    title: `${all} fan`,
    form: ['faces', 'fan'],
    typed: { places: { lever: { x: '60', y: '-20', behind: '30 ± 0.5', old: { behind: '20' } } } },
    command: 'plate',
  },
  { job: 'lift-pump', screen: 'Stack', title: `${all} the stack`, form: ['stack'], command: 'stack' },
  { job: 'weir-gate', screen: 'Stack', title: `${all} the old plate`, form: ['old'], command: 'plate' },
  { job: 'chaff-cutter', screen: 'Plate', title: `${all} the plate`, form: ['plate'], command: 'plate' },
  {
    job: 'three-to-four',
    screen: 'Plate',
    title: `${all} the plate`,
    form: ['plate'],
    typed: {
      cuts: {
        drain: { hole: '5 mm', at: ['-33', '19'], why: 'drain of the bearing' },
        'pick up': { pocket: '12 mm', depth: '4 mm', side: 'B', at: ['0', '-38'] },
      },
      jacking: { thread: 'M6', circle: '96 mm', clock: ['2', '8'] },
      parallel: '± 0.02 mm',
    },
    command: 'plate',
  },
  {
    job: 'three-to-four',
    screen: 'Plate',
    title: `${all} gaskets and what moves`,
    form: [],
    typed: { gaskets: { fan: { 'hole clearance': '0.5 mm', bore: '41 mm', outline: 'follow' } } },
    command: 'plate',
  },
  {
    job: 'lift-pump',
    screen: 'Plate',
    title: `${all} gaskets and what moves`,
    form: [],
    keys: ['gaskets'],
    command: 'plate',
  },
  { job: 'lift-pump', screen: 'Make', title: `${all} the machine`, form: ['machine'], command: 'table' },
  { job: 'whetstone', screen: 'Make', title: `${all} the machine`, form: ['machine'], command: 'table' },
  { job: 'whetstone', screen: 'Make', title: rest, form: [], keys: ['work'], command: 'plate' },
  { job: 'weir-gate', screen: 'Make', title: rest, form: [], keys: ['drawing'], command: 'plate' },
  {
    job: 'hay-hoist',
    screen: 'Prove',
    title: `${all} the drilled plate`,
    form: ['drilled'],
    keys: ['so far'],
    command: 'prove',
  },
  { job: 'grain-auger', screen: 'Prove', title: `${all} the trial assembly`, form: ['trial'], command: 'trial' },
];

/** The page's words of a verdict are the command line's, without the Yes or No before them. */
const plain = (words: string): string =>
  words
    .replaceAll(/\s+/g, ' ')
    .replace(/^(?:Yes|No|Not yet): /, '')
    .trim();

describe.skipIf(whyNot !== null)(`a section typed from nothing by its form, ${inBrowser}`, () => {
  test.each(cases)('$form $keys of $job', async ({ job, screen, title, form, keys, typed, command }) => {
    const whole = example(job);
    const own = partOf(said(whole), form) as Readonly<Record<string, Said>>;
    const wanted = typed ?? Object.fromEntries(Object.entries(own).filter(([k]) => keys?.includes(k) ?? true));
    const paths = Object.keys(wanted).map((key) => [...form, key]);
    const bare = paths.reduce(without, whole);
    const { page, loud, close } = await openPage(bare);
    try {
      await goTo(page, screen);
      await typeSection(page, title, wanted);
      const text = await textOf(page);
      for (const path of paths) expect(partOf(said(text), path)).toEqual(wanted[path.at(-1) ?? '']);
      // All else stands as it stood.
      expect(said(paths.reduce(without, text))).toEqual(said(bare));
      await quiet(page);
      const answer = built(text, command);
      const out = plain(answer.out);
      const verdicts = await page.locator('main .do > .report > .verdict').allInnerTexts();
      expect(verdicts.map(plain).filter((words) => !out.includes(words))).toEqual([]);
      // An example typed anew is the example; what it never said changes its answer.
      const before = built(whole, command);
      if (typed === undefined) expect([answer.status, out]).toEqual([before.status, plain(before.out)]);
      else expect(out).not.toBe(plain(before.out));
      expect(loud).toEqual([]);
    } finally {
      await close();
    }
  });
});
