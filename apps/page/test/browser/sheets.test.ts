import { describe, expect, test } from 'vitest';
import { inBrowser, patient, whyNot } from '../support/chromium.js';
import { example, goTo, openPage } from '../support/page.js';

describe.skipIf(whyNot !== null)(`sheets, pieces and work ${inBrowser}`, () => {
  test('either piece of a plate of two is looked at by a button', async () => {
    const { page, loud, close } = await openPage(example('chaff-cutter'));
    try {
      await goTo(page, 'Plate');
      await page
        .getByText('side B: toward the plate')
        .first()
        .waitFor({ state: 'attached', ...patient });
      await page.getByRole('button', { name: 'Piece: plate' }).click();
      await page
        .getByText('side B: toward motor')
        .first()
        .waitFor({ state: 'attached', ...patient });
      expect(loud).toEqual([]);
    } finally {
      await close();
    }
  });

  test('a cure that is work on a part goes into the job by a button, and mends it', async () => {
    const long = example('whetstone').replace(/^ {2}studs: .*$/m, '');
    expect(long).not.toContain('shorten');
    const { page, loud, close } = await openPage(long);
    try {
      await goTo(page, 'Plate');
      const cure = page.getByRole('button', { name: /cut the studs of stand back/ }).first();
      await cure.waitFor(patient);
      await cure.click();
      await page
        .getByRole('button', { name: /cut the studs of stand back/ })
        .waitFor({ state: 'detached', ...patient });
      // Every check is worked out anew on studs that are cut back.
      expect(await page.getByText(/stud's end under the other part/).count()).toBe(0);
      expect(loud).toEqual([]);
    } finally {
      await close();
    }
  });

  test('the drawing and the assembly sheet open in a tab of their own', async () => {
    const { page, loud, close } = await openPage(example('three-to-four'));
    try {
      await goTo(page, 'Make');
      for (const name of ['Print how it goes together', 'Print a drawing for another shop']) {
        const opened = page.context().waitForEvent('page', patient);
        await page.getByRole('button', { name }).click();
        // A browser without a viewer is given the file: either way there is one.
        await (await opened).close();
      }
      expect(loud).toEqual([]);
    } finally {
      await close();
    }
  });
});
