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
});
