import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { unzipSync } from 'fflate';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { inBrowser, patient, whyNot } from '../../apps/page/test/support/chromium.js';
import { type OpenPage, drop, goTo, openPage, quiet } from '../../apps/page/test/support/page.js';
import { built } from './built.js';

const root = join(import.meta.dirname, '../..');
const read = (...path: readonly string[]): string => readFileSync(join(root, ...path), 'utf8');

const jobs: readonly (readonly [string, string])[] = [
  ...readdirSync(join(root, 'examples'), { withFileTypes: true })
    .filter((d) => d.isDirectory())
    .map((d) => [d.name, read('examples', d.name, 'job.yaml')] as const),
  ...readdirSync(join(root, 'test/cases'))
    .filter((f) => f.endsWith('.yaml'))
    .map((f) => [f, read('test/cases', f)] as const),
];

const plain = (text: string): string => text.replaceAll(/\s+/g, ' ');

describe.skipIf(whyNot !== null)(`page and command line ${inBrowser}`, () => {
  let opened: OpenPage;
  beforeAll(async () => {
    opened = await openPage('');
    await opened.page.locator('form').first().waitFor(patient);
  });
  afterAll(async () => await opened.close());

  test.each(jobs)('say the same of %s, and make the same packet to the byte', async (_, text) => {
    const { page } = opened;
    await drop(page, text);
    await goTo(page, 'Measure');
    await quiet(page);
    // The verdicts of the first face, as `locate` has them; a job may be a stack alone.
    if (/^faces:/m.test(text)) {
      await page.locator('summary').filter({ hasText: 'All that the readings say' }).waitFor(patient);
      const said = plain(built(text, 'locate').out);
      for (const words of await page.locator('.verdict').allTextContents())
        if (!words.includes('contradict')) expect(said).toContain(plain(words));
    }
    const wanted = built(text, 'packet');
    await goTo(page, 'Make');
    await quiet(page);
    const save = page.getByRole('button', { name: /^Save the packet/ });
    // Where no plate can be drawn neither makes a packet.
    if (Object.keys(wanted.files).length === 0) {
      expect(await save.count()).toBe(0);
      return;
    }
    await save.waitFor(patient);
    // Refused or marked while it is not settled: the page's word is the command line's exit status.
    expect((await save.innerText()).includes('not settled')).toBe(built(text, 'plate').status !== 0);
    const [download] = await Promise.all([page.waitForEvent('download', patient), save.click()]);
    const made = unzipSync(readFileSync(await download.path()));
    expect(Object.keys(made).sort()).toEqual(Object.keys(wanted.files).sort());
    for (const [file, content] of Object.entries(wanted.files))
      expect([file, Buffer.from(made[file] ?? []).equals(Buffer.from(content))]).toEqual([file, true]);
    // A value that must fail: two PDFs of one packet, which are in a folder each where the plate is of two pieces.
    const [one = '', other = ''] = Object.keys(wanted.files).filter((f) => f.endsWith('.pdf'));
    expect(Buffer.from(made[one] ?? []).equals(Buffer.from(wanted.files[other] ?? []))).toBe(false);
  });
});
