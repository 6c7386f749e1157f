import type { Locator, Page } from 'playwright-core';
import { patient } from './chromium.js';

import type { Said } from './said.js';

const capital = (word: string): string => word.slice(0, 1).toUpperCase() + word.slice(1);

/** A label is a key, then the unit of a bare number or how far the job has it. */
const isLabel = (shown: string, key: string): boolean =>
  shown === capital(key) || [', ', ': in the job'].some((more) => shown.startsWith(capital(key) + more));

/** The first of these whose words are the label of a key. */
const labelled = async (of: Locator, key: string): Promise<number> =>
  (await of.allInnerTexts()).findIndex((words) => isLabel(words.trim(), key));

const put = async (field: Locator, value: string): Promise<void> => {
  const box = field.locator('input, select');
  await box.waitFor(patient);
  if ((await box.evaluate((e) => e.tagName)) === 'SELECT') await box.selectOption(value);
  else await box.fill(value);
};

/** Adds by the box under a section's entries or a list's items. */
const add = async (inside: Locator, value: string): Promise<void> => {
  const form = inside.locator(':scope > form.add').last();
  await form.locator('input').fill(value);
  await form.locator('button').click();
};

/** How a word that may be written in several ways is to be written; nothing to choose where there is one way. */
const choose = async (inside: Locator, way: readonly string[]): Promise<void> => {
  const label = inside.locator(':scope > .fields > .field > label', { hasText: ': how it is written' });
  if ((await label.count()) === 0) return;
  const select = label.first().locator('xpath=following-sibling::select');
  const offered = await select.locator('option').allInnerTexts();
  await select.selectOption({ label: way.find((w) => offered.includes(w)) ?? '' });
};

/** The inside of a fold, opened. */
const opened = async (fold: Locator): Promise<Locator> => {
  if ((await fold.getAttribute('open')) === null) await fold.locator(':scope > summary').click();
  const inside = fold.locator(':scope > .inside');
  // The words are asked for when a form is first opened.
  await inside.locator(':scope > :is(.fields, details, form, button)').first().waitFor(patient);
  return inside;
};

const typeList = async (inside: Locator, items: readonly Said[]): Promise<void> => {
  for (const [i, item] of items.entries()) {
    if (typeof item === 'string') await add(inside, item);
    else {
      await inside.locator(':scope > button', { hasText: 'Add one' }).click();
      await typeValue(inside.locator(':scope > .entry').nth(i).locator(':scope > .field').first(), item);
    }
    await inside.locator(':scope > .entry').nth(i).waitFor(patient);
  }
};

const typeNames = async (inside: Locator, entries: readonly (readonly [string, Said])[]): Promise<void> => {
  for (const [name, value] of entries) {
    // Names that mean something of themselves have their own form among the others.
    if ((await labelled(inside.locator(':scope > details > summary'), name)) >= 0) {
      await typeKeys(inside, [[name, value]]);
      continue;
    }
    await add(inside, name);
    const row = inside.locator(':scope > .entry', { has: inside.page().getByLabel(name, { exact: true }) });
    const fold = inside.locator(':scope > details', {
      has: inside.page().locator('summary').getByText(name, { exact: true }),
    });
    await row.or(fold).first().waitFor(patient);
    if ((await fold.count()) > 0) await typeValue(await opened(fold.first()), value);
    else await put(row.first().locator('.field').first(), typeof value === 'string' ? value : '');
  }
};

const typeValue = async (inside: Locator, value: Said): Promise<void> => {
  if (typeof value === 'string') {
    await choose(inside, ['one value', 'one word']);
    await put(inside.locator(':scope > .fields > .field').last(), value);
    return;
  }
  if (Array.isArray(value)) {
    await choose(inside, ['a list']);
    await typeList(inside, value as readonly Said[]);
    return;
  }
  await choose(inside, ['in parts', 'by names']);
  const entries = Object.entries(value as { readonly [key: string]: Said });
  const named = (await inside.locator(':scope > form.add').allInnerTexts()).some((words) => words.includes(': a name'));
  await (named ? typeNames(inside, entries) : typeKeys(inside, entries));
};

const typeKeys = async (inside: Locator, entries: readonly (readonly [string, Said])[]): Promise<void> => {
  for (const [key, value] of entries) {
    const boxes = inside.locator(':scope > .fields.words > .field');
    const box = await labelled(boxes.locator('label'), key);
    if (box >= 0 && typeof value === 'string') {
      await put(boxes.nth(box), value);
      continue;
    }
    const folds = inside.locator(':scope > details');
    const fold = await labelled(folds.locator(':scope > summary'), key);
    if (fold < 0) throw new Error(`there is no form for ${key}`);
    await typeValue(await opened(folds.nth(fold)), value);
  }
};

/** Types a whole section of a job by the boxes, lists and buttons of its form, from its first word to its last. */
export const typeSection = async (page: Page, title: string, said: Said): Promise<void> => {
  const fold = page.locator('main > details.fold, main .folds > details.fold', {
    has: page.locator('summary').getByText(title, { exact: true }),
  });
  await typeValue(await opened(fold.first()), said);
};
