import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { inBrowser, patient, whyNot } from '../support/chromium.js';
import { example, goTo, openPage } from '../support/page.js';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const steps = ['Measure', 'Understand', 'Stack', 'Plate', 'Make', 'Prove'] as const;

interface Axe {
  readonly run: (
    where: Document,
    options: object,
  ) => Promise<{
    readonly violations: readonly { readonly id: string; readonly nodes: readonly { readonly html: string }[] }[];
  }>;
}

/** What axe-core finds against WCAG 2.2 AA and its best habits: rule and the first place, empty where nothing. */
const violations = async (page: Page): Promise<readonly string[]> => {
  await page.evaluate(axe);
  return await page.evaluate(async () => {
    const { axe } = window as unknown as { readonly axe: Axe };
    const tags = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];
    const found = await axe.run(document, { runOnly: { type: 'tag', values: tags }, resultTypes: ['violations'] });
    return found.violations.map((v) => `${v.id}: ${v.nodes[0]?.html ?? ''}`);
  });
};

/** Elements that reach beyond the right edge, outside what scrolls by itself. */
const beyond = async (page: Page): Promise<readonly string[]> =>
  await page.evaluate(() =>
    [...document.querySelectorAll('#page *')]
      .filter((e) => e.getBoundingClientRect().right > window.innerWidth + 0.5)
      .filter((e) => e.closest('.cm-scroller, .unseen, .table, svg') === null)
      .map((e) => `${e.tagName} ${e.className} ${(e.textContent ?? '').slice(0, 40)}`)
      .concat(
        document.documentElement.scrollWidth > window.innerWidth
          ? [`page ${document.documentElement.scrollWidth}`]
          : [],
      ),
  );

/** Buttons, boxes and lists smaller than a thumb wants, px: 24 is WCAG 2.2's least (2.5.8), 44 what a thumb hits. */
const small = async (page: Page, least: number): Promise<readonly string[]> =>
  await page.evaluate(
    (least) =>
      [...document.querySelectorAll<HTMLElement>('button, select, input, summary')]
        // Names on a drawing are as large as they are drawn: the form beside it has the same boxes.
        .filter((e) => e.offsetParent !== null && e.closest('.cm-editor, figcaption, .frame') === null)
        .filter(
          (e) =>
            e.getBoundingClientRect().height < least &&
            (e.closest('label')?.getBoundingClientRect().height ?? 0) < least,
        )
        .map((e) => `${e.tagName} ${e.textContent ?? ''}`),
    least,
  );

const shown = async (page: Page, step: string): Promise<void> => {
  await goTo(page, step);
  await page.locator('.drawn svg').first().waitFor(patient);
  await page.locator('.working.idle').waitFor({ state: 'attached', ...patient });
};

/** Opens every fold, and those in it as they come, so that what is behind a word is looked at too. */
const unfold = async (page: Page): Promise<void> => {
  await expect
    .poll(
      async () =>
        await page.evaluate(() => {
          const closed = [...document.querySelectorAll('details')].filter((d) => !d.open);
          for (const d of closed) d.open = true;
          // The words of a form are asked for when it is first opened.
          return closed.length + (document.body.innerText.includes('Reading the words') ? 1 : 0);
        }),
      patient,
    )
    .toBe(0);
  await page
    .getByText('Reading the words')
    .first()
    .waitFor({ state: 'detached', ...patient });
};

describe.skipIf(whyNot !== null)(`the look ${inBrowser}`, () => {
  test.each([
    [360, 'light'],
    [768, 'dark'],
    [1280, 'light'],
    [1280, 'dark'],
    [1920, 'light'],
  ] as const)(
    'at %i px by %s: no violation of WCAG 2.2 AA, nothing beyond the edge, all large enough',
    async (width, colorScheme) => {
      const { page, loud, close } = await openPage(example('lift-pump'), {
        viewport: { width, height: 800 },
        colorScheme,
      });
      for (const step of steps) {
        await shown(page, step);
        expect([step, await beyond(page)]).toEqual([step, []]);
        expect([step, await small(page, 40)]).toEqual([step, []]);
        await unfold(page);
        expect([step, await violations(page)]).toEqual([step, []]);
        expect([step, await beyond(page)]).toEqual([step, []]);
      }
      if (width < 500) await page.getByRole('button', { name: 'More' }).click();
      await page.getByRole('button', { name: 'Text', exact: true }).click();
      await page.locator('.cm-editor').waitFor(patient);
      expect(await violations(page)).toEqual([]);
      expect(await beyond(page)).toEqual([]);
      await page.getByRole('button', { name: 'New', exact: true }).click();
      expect(await violations(page)).toEqual([]);
      expect(loud).toEqual([]);
      // Values that must fail.
      await page.addStyleTag({ content: 'button { color: #bbb; background: #fff; width: 130vw }' });
      expect((await violations(page)).some((v) => v.startsWith('color-contrast'))).toBe(true);
      expect(await beyond(page)).not.toEqual([]);
      await close();
    },
  );
});
