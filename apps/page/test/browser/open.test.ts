import { gzipSync } from 'node:zlib';
import { describe, expect, test } from 'vitest';
import { inBrowser, patient, whyNot } from '../support/chromium.js';
import { example, goTo, openPage, pageWith } from '../support/page.js';

test('the page holds everything itself and is small enough to send', () => {
  const page = pageWith(example('lift-pump'));
  // Of what lies outside the scripts: nothing names another file.
  const markup = page.replace(/<script[^>]*>[\s\S]*?<\/script>/g, '');
  expect(markup).not.toMatch(/\ssrc=|<link|@import|url\(/i);
  expect(markup).toContain("default-src 'none'");
  expect(page.length).toBeLessThan(3_000_000);
  expect(gzipSync(page).length).toBeLessThan(1_100_000);
});

describe.skipIf(whyNot !== null)(`opened ${inBrowser}`, () => {
  test('the demo is drawn from a file, and nothing at all is asked for', async () => {
    const { page, asked, loud, close } = await openPage(example('lift-pump'));
    await page.locator('.drawn svg').waitFor(patient);
    expect(await page.locator('h1').innerText()).toBe('Heron Lane lift pump');
    for (const step of ['Understand', 'Stack', 'Plate', 'Make', 'Prove', 'Measure']) {
      await goTo(page, step);
      await page.locator('.drawn svg').first().waitFor(patient);
      await page.locator('.working.idle').waitFor({ state: 'attached', ...patient });
    }
    expect({ asked, loud }).toEqual({ asked: [], loud: [] });
    // Values that must fail: a request is counted, and the policy stops it.
    await page.evaluate(() => void fetch('https://example.org/').catch(() => null));
    await expect.poll(() => loud.length, patient).toBeGreaterThan(0);
    await close();
  });
});
