import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Locator, Page } from 'playwright-core';
import { unzipSync } from 'fflate';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { inBrowser, patient, whyNot } from '../../apps/page/test/support/chromium.js';
import { type OpenPage, goTo, openPage, quiet } from '../../apps/page/test/support/page.js';
import { builtFiles } from './built.js';

const example = (name: string): string =>
  readFileSync(join(import.meta.dirname, '../../examples', name, 'job.yaml'), 'utf8');

/** What a button hands over, whether it opens a tab or saves a file: the bytes of the next file that the page makes. */
const handed = async (page: Page, button: Locator): Promise<Uint8Array> => {
  await page.evaluate(() => {
    const made: Blob[] = [];
    (window as unknown as { made: Blob[] }).made = made;
    const create = URL.createObjectURL.bind(URL);
    URL.createObjectURL = (blob) => {
      if (blob instanceof Blob && !blob.type.includes('javascript')) made.push(blob);
      return create(blob);
    };
    window.open = () => window;
  });
  await button.click();
  await page.waitForFunction(() => (window as unknown as { made: Blob[] }).made.length > 0, null, patient);
  const packed = await page.evaluate(
    async () =>
      await new Promise<string>((resolve) => {
        const [blob = new Blob()] = (window as unknown as { made: Blob[] }).made;
        const reader = new FileReader();
        reader.addEventListener('load', () => resolve(typeof reader.result === 'string' ? reader.result : ''));
        reader.readAsDataURL(blob);
      }),
  );
  return Buffer.from(packed.slice(packed.indexOf(',') + 1), 'base64');
};

const dropped = async (page: Page, text: string): Promise<void> =>
  await page.evaluate((job) => {
    const data = new DataTransfer();
    data.items.add(new File([job], 'job.yaml'));
    document.dispatchEvent(new DragEvent('drop', { dataTransfer: data, bubbles: true, cancelable: true }));
  }, text);

const same = (a: Uint8Array | undefined, b: Uint8Array | undefined): boolean =>
  a !== undefined && b !== undefined && Buffer.from(a).equals(Buffer.from(b));

/** Everything of Make that a button prints or saves, with the flags that make the same from the command line. */
const buttons: readonly (readonly [string, readonly string[]])[] = [
  ['Print measuring sheets', ['--what', 'readings']],
  ['Print templates of the parts alone', ['--what', 'part']],
  ['Print the template at true scale', ['--what', 'drill']],
  ['Print the gaskets', ['--what', 'gasket']],
  ['Print strips for the drill stop', ['--what', 'depths']],
  ['Print how it goes together', ['--what', 'assembly']],
  ['Print the exploded view', ['--what', 'exploded']],
  ['Print a drawing for another shop', ['--what', 'drawing']],
  ['Save it as SVG for a laser and 3MF for a printer', ['--what', 'test-piece']],
];

describe.skipIf(whyNot !== null)(`what Make hands over, ${inBrowser}`, () => {
  let opened: OpenPage;
  beforeAll(async () => {
    opened = await openPage('');
    await opened.page.locator('form').first().waitFor(patient);
  });
  afterAll(async () => await opened.close());

  /** The job that Make shows with nothing chosen yet: it is not worked out anew for each of its buttons. */
  let shown = '';
  const show = async (text: string): Promise<Page> => {
    const { page } = opened;
    if (shown === text) return page;
    shown = text;
    await dropped(page, text);
    await goTo(page, 'Make');
    await quiet(page);
    await page.getByRole('region', { name: 'Files' }).waitFor(patient);
    for (const fold of ['How they are made', 'To measure by, and to try']) {
      const details = page.locator('details.fold', { has: page.getByText(fold, { exact: true }) });
      if ((await details.getAttribute('open')) === null) await details.locator('summary').first().click();
    }
    await page.getByLabel('Width of the laser').waitFor(patient);
    return page;
  };

  /** The bytes behind a button beside those of the command line: one file, or each of a .zip. */
  const compare = async (page: Page, text: string, label: string, flags: readonly string[]): Promise<void> => {
    const what = flags[1] ?? '';
    const out = flags.includes('--svg') ? `${what}.svg` : what === 'test-piece' ? what : `${what}.pdf`;
    const wanted = builtFiles(text, 'print', [...flags, '--out', out]).files;
    const names = Object.keys(wanted);
    expect([label, names.length > 0]).toEqual([label, true]);
    const bytes = await handed(page, page.getByRole('button', { name: label }));
    const got = names.length === 1 ? { [names[0] ?? '']: bytes } : unzipSync(bytes);
    expect([label, Object.keys(got).toSorted()]).toEqual([label, names.toSorted()]);
    for (const name of names) expect([label, name, same(got[name], wanted[name])]).toEqual([label, name, true]);
  };

  test.each(buttons)('%s gives the bytes of the command line', async (label, flags) => {
    const text = example('lift-pump');
    const page = await show(text);
    await compare(page, text, label, flags);
    expect(opened.loud).toEqual([]);
  });

  test('another side of the plate is another file', async () => {
    const page = await show(example('lift-pump'));
    const button = page.getByRole('button', { name: 'Print the gaskets' });
    const before = await handed(page, button);
    await page.getByLabel('Side of the plate that faces you').selectOption('A');
    expect(same(await handed(page, button), before)).toBe(false);
  });

  test('side, SVG, burn and thickness go to the sheets as typed, and what cannot be read is said', async () => {
    const text = example('three-to-four');
    const page = await show(text);
    await page.getByLabel('Side of the plate that faces you').selectOption('A');
    await compare(page, text, 'Print the template at true scale', ['--what', 'drill', '--side', 'A']);
    await page.getByLabel('Template and gaskets as one SVG').check();
    await compare(page, text, 'Save the template as one SVG', ['--what', 'drill', '--side', 'A', '--svg']);
    await page.getByLabel('Width of the laser’s burn').fill('0.2');
    await page.getByLabel('Thickness for a printer').fill('2.5 mm');
    const piece = ['--what', 'test-piece', '--side', 'A', '--kerf', '0.2', '--thick', '2.5 mm'];
    await compare(page, text, 'Save it as SVG for a laser and 3MF for a printer', piece);
    await page.getByText('The burn of 0.20 mm lies in the waste').waitFor(patient);
    await page.getByLabel('Width of the laser’s burn').fill('a hair');
    await page.getByRole('button', { name: 'Save it as SVG for a laser' }).click();
    await page.getByText(/The width of the laser’s burn takes/).waitFor(patient);
    expect(opened.loud).toEqual([]);
  });

  test('of a plate of two pieces the one that is looked at is printed', async () => {
    const text = example('chaff-cutter');
    const page = await show(text);
    await page.getByRole('button', { name: 'Piece: plate' }).click();
    await quiet(page);
    for (const [label, what] of [
      ['Print the template at true scale', 'drill'],
      ['Save it as SVG for a laser and 3MF for a printer', 'test-piece'],
      ['Print strips for the drill stop', 'depths'],
    ] as const)
      await compare(page, text, label, ['--what', what, '--piece', 'plate']);
    expect(opened.loud).toEqual([]);
  });

  /** Each sentence that the page says is one of the command line's. */
  const saysAs = async (page: Page, out: string, marker: string): Promise<void> => {
    const fold = page.locator('details.fold', { has: page.getByText(more, { exact: true }) });
    await fold.getByText(marker).first().waitFor(patient);
    const plain = (words: string): string => words.replaceAll(/[\s•─-]+/g, ' ').trim();
    const said = await fold.locator('.report :is(p:not(.caption, .verdict, .caution), li)').allInnerTexts();
    expect(said.length).toBeGreaterThan(0);
    expect(said.map(plain).filter((words) => !plain(out).includes(words))).toEqual([]);
  };
  const more = 'Before buying, midway, and what has changed';
  const unfold = async (page: Page): Promise<void> => {
    const fold = page.locator('details.fold', { has: page.getByText(more, { exact: true }) });
    if ((await fold.getAttribute('open')) === null) await fold.locator('summary').first().click();
  };

  const at = async (text: string): Promise<Page> => {
    const { page } = opened;
    shown = '';
    await dropped(page, text);
    await goTo(page, 'Plate');
    await goTo(page, 'Make');
    await quiet(page);
    await unfold(page);
    return page;
  };

  test('before buying: the odds in words, and the sheet to ask a seller by', async () => {
    const text = example('barn-saw');
    const page = await at(text);
    await page.getByRole('button', { name: 'Can a plate exist?' }).click();
    await saysAs(page, builtFiles(text, 'buy', []).out, 'ask');
    const asked = builtFiles(text, 'print', ['--what', 'buy', '--out', 'buy.pdf']).files['buy.pdf'];
    const sheet = await handed(page, page.getByRole('button', { name: 'Print what to ask the seller for' }));
    expect(same(sheet, asked)).toBe(true);
    expect(opened.loud).toEqual([]);
  });

  test('after a trial assembly: the final shims', async () => {
    const text = example('grain-auger');
    const page = await at(text);
    await page.getByRole('button', { name: 'Final shims from the trial assembly' }).click();
    await saysAs(page, builtFiles(text, 'trial', []).out, 'shim');
    expect(opened.loud).toEqual([]);
  });

  test.each([null, '2'])('midway: what is left to drill, by the way that is chosen (%s)', async (way) => {
    const text = example('hay-hoist');
    const page = await at(text);
    if (way !== null) await page.getByLabel('Which of the ways that Prove lists').fill(way);
    const wanted = builtFiles(text, 'prove', ['--out', 'rest', ...(way === null ? [] : ['--way', way])]).files;
    const got = unzipSync(await handed(page, page.getByRole('button', { name: 'Save what is left to drill' })));
    expect(Object.keys(got).toSorted()).toEqual(Object.keys(wanted).toSorted());
    for (const name of Object.keys(wanted)) expect([name, same(got[name], wanted[name])]).toEqual([name, true]);
    expect(opened.loud).toEqual([]);
  });

  test('against an earlier state: what moved, and which sheets are stale', async () => {
    const text = example('three-to-four');
    const before = text.replace('thickness: 10', 'thickness: 12');
    const page = await at(text);
    await page
      .getByLabel('Compare with the job file as it was')
      .setInputFiles({ name: 'before.yaml', mimeType: 'text/yaml', buffer: Buffer.from(before) });
    const compared = builtFiles(text, 'compare', ['--with', 'before.yaml'], { 'before.yaml': before }).out;
    await saysAs(page, compared, 'The plate was 12.000 thick');
    expect(opened.loud).toEqual([]);
  });
});
