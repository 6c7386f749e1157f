import { describe, expect, test } from 'vitest';
import { inBrowser, patient, whyNot } from '../support/chromium.js';
import { example, openPage } from '../support/page.js';

describe.skipIf(whyNot !== null)(`the handbook ${inBrowser}`, () => {
  test('a standard face is looked up, drawn, and taken for a part', async () => {
    const { page, loud, asked, close } = await openPage(example('lift-pump'));
    await page.locator('.drawn svg').first().waitFor(patient);
    await page.locator('summary', { hasText: /^Look it up$/ }).click();
    const answer = page.locator('.looked');
    const ask = async (kind: string, what: string, says: RegExp): Promise<void> => {
      await page.getByLabel('Look up', { exact: true }).selectOption(kind);
      await page.getByLabel('Its name or its sizes').fill(what);
      await page.getByRole('button', { name: 'Look it up' }).click();
      await answer.filter({ hasText: says }).waitFor(patient);
    };
    // 165 mm, 130 j6 and 12 mm: IEC 60072-1, flange FF165.
    await ask('face', 'FF165', /130\.000 mm.*12\.000/s);
    await page.locator('figcaption', { hasText: 'FF165' }).waitFor(patient);
    await ask('thread', '9.4 mm 1.6 mm', /3\/8-16 UNC.*3\/8 BSW/s);
    expect(await page.locator('figcaption', { hasText: 'FF165' }).count()).toBe(0);
    await ask('words', 'plate.fasten', /plate\.fasten/);
    // A name that is not held, with what comes near.
    await ask('face', 'FF160', /no face “FF160”.*FF165/s);
    await ask('face', 'FF165', /130\.000 mm/);
    // A part with readings is recognised by them; one without takes the standard's features for its own.
    expect(await page.getByRole('button', { name: /is made to/ }).count()).toBe(0);
    await page.getByRole('button', { name: 'New', exact: true }).click();
    await page.getByLabel('Name of part 2').fill('engine');
    for (const n of [1, 2]) await page.getByLabel(`Where on the clock, part ${n}`).fill('12 3 6 9');
    await page.getByRole('button', { name: 'Begin' }).click();
    await page.locator('summary', { hasText: /^Look it up$/ }).click();
    await page.getByRole('button', { name: 'engine is made to IEC FF165' }).click();
    await page.getByRole('button', { name: /^engine: fixed$/ }).click(patient);
    await page.locator('tr[data-feature="B1"]', { hasText: '58.3' }).waitFor(patient);
    await page.locator('summary', { hasText: 'How you look at it' }).click();
    expect(await page.getByLabel('Made to the standard').inputValue()).toBe('IEC FF165');
    expect(asked).toEqual([]);
    expect(loud).toEqual([]);
    await close();
  });
});
