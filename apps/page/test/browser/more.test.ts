import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { inBrowser, patient, whyNot } from '../support/chromium.js';
import { example, goTo, openPage } from '../support/page.js';

describe.skipIf(whyNot !== null)(`the rest of the day, ${inBrowser}`, () => {
  test('a plate that went wrong midway: Prove says what can be done, Make saves what is left', async () => {
    const { page, loud, close } = await openPage(example('hay-hoist'));
    await goTo(page, 'Prove');
    await page.getByText('What can be done').waitFor(patient);
    expect(await page.locator('main').innerText()).toContain('round those that are drilled');
    await goTo(page, 'Make');
    await page.getByText('Before buying, midway, and what has changed').click(patient);
    const saved = page.waitForEvent('download', patient);
    await page.getByRole('button', { name: 'Save what is left to drill, one .zip' }).click(patient);
    expect((await saved).suggestedFilename()).toBe('rest.zip');
    expect(loud).toEqual([]);
    await close();
  });

  test('an earlier state of the job is compared by naming its file', async () => {
    const { page, close } = await openPage(example('three-to-four'));
    await goTo(page, 'Make');
    await page.getByText('Before buying, midway, and what has changed').click(patient);
    const earlier = example('three-to-four').replace('thickness: 10', 'thickness: 12');
    await page
      .getByLabel('Compare with the job file as it was')
      .setInputFiles({ name: 'before.yaml', mimeType: 'text/yaml', buffer: Buffer.from(earlier) });
    await page.getByText('The plate was 12.000 thick and is 10.000 mm.').waitFor(patient);
    await close();
  });

  test('two settings of one side have their own headings in Make, and their own cuts', async () => {
    const small = readFileSync(join(import.meta.dirname, '../../../../examples/small-machine.yaml'), 'utf8');
    const { page, loud, close } = await openPage(small);
    await goTo(page, 'Make');
    const cards = page.locator('section.card[aria-label^="Cuts:"]');
    await cards.first().waitFor(patient);
    const titles = await cards.locator('h3').allInnerTexts();
    expect(titles).toEqual(expect.arrayContaining(['Side B up, setting 1 of 2', 'Side B up, setting 2 of 2']));
    expect(new Set(titles).size).toBe(titles.length);
    expect(loud).toEqual([]);
    await close();
  });
});
