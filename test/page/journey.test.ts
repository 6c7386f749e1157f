import { readFileSync } from 'node:fs';
import { unzipSync } from 'fflate';
import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { built } from './built.js';
import { inBrowser, patient, whyNot } from '../../apps/page/test/support/chromium.js';
import { type Hands, handsOf } from '../../apps/page/test/support/hands.js';
import { type OpenPage, openPage, quiet } from '../../apps/page/test/support/page.js';
import { type Truth, motor, pump, readingOf } from '../../apps/page/test/support/truth.js';

const inches = 25.4;

const box = (page: Page, label: string) => page.getByLabel(label, { exact: true });
const button = (page: Page, name: string | RegExp) =>
  page.getByRole('button', typeof name === 'string' ? { name, exact: true } : { name });
const fold = async (page: Page, hands: Hands, title: string | RegExp): Promise<void> =>
  await hands.press(page.locator('summary').filter({ hasText: title }).first());

/** Two parts as the eye sees them, in the form for a new job. */
const begin = async (page: Page, hands: Hands): Promise<void> => {
  await hands.fill(box(page, 'Name of the job'), 'Heron Lane lift pump');
  await hands.choose(box(page, 'A number without a unit is in'), 'inches');
  await hands.fill(box(page, 'Name of part 1'), 'pump');
  await hands.fill(box(page, 'Where on the clock, part 1'), '12 2 3 5 7 9 10');
  await hands.fill(box(page, 'Name of part 2'), 'motor');
  await hands.fill(box(page, 'Where on the clock, part 2'), '1:30 4:30 7:30 10:30');
  await hands.press(button(page, 'Begin'));
  await page.locator('.reading').waitFor(patient);
};

/** The readings of one face as the plan asks for them: a number and Enter, as a caliper types them. */
const measure = async (page: Page, hands: Hands, truth: Truth): Promise<number> => {
  const big = page.locator('input.big');
  let taken = 0;
  for (; taken < 60; taken++) {
    await quiet(page);
    if (/^(?:Enough|Every)/.test(await page.locator('.count').innerText())) break;
    const head = await page.locator('.reading code').innerText();
    await hands.fill(big, readingOf(head, truth));
    await hands.key('Enter');
    // Enter goes straight on: the box is empty, has the focus, and asks for another reading.
    await expect
      .poll(async () => await page.locator('.count, .reading code').allInnerTexts(), patient)
      .not.toContain(head);
  }
  return taken;
};

/** Every centre on the page within what the readings' rounding allows of where it truly is. */
const compare = async (page: Page, truth: Truth): Promise<void> => {
  for (const [id, at] of Object.entries(truth)) {
    const cells = await page.locator(`tr[data-feature="${id}"] td`).allInnerTexts();
    const [x = 0, y = 0] = cells.map((c) => Number(c.replace('−', '-')));
    expect([id, Math.abs(x * inches - at.x) < 0.1, Math.abs(y * inches - at.y) < 0.1]).toEqual([id, true, true]);
  }
  // A value that must fail.
  const [first] = Object.entries(truth).filter(([id]) => id !== 'spigot');
  expect(Math.abs((first?.[1].x ?? 0) + 1) < 0.1 && Math.abs((first?.[1].y ?? 0) + 1) < 0.1).toBe(false);
};

const stack = async (page: Page, hands: Hands): Promise<void> => {
  await hands.press(button(page, '3 Stack'));
  await hands.press(button(page, 'Begin a stack'));
  await hands.fill(box(page, 'reach'), '61.2 ± 0.2 mm');
  await hands.fill(box(page, 'floor'), '44.0 ± 0.2 mm');
  await hands.fill(box(page, 'plate: find between'), '12 .. 30 mm');
  await hands.fill(box(page, 'tip gap: at least'), '1 mm');
  await hands.fill(box(page, 'tip gap: at most'), '3 mm');
  await quiet(page);
  expect(await page.locator('.verdict').first().innerText()).toMatch(/^Yes:/);
};

const plate = async (page: Page, hands: Hands): Promise<void> => {
  await hands.press(button(page, '1 Measure'));
  await hands.press(button(page, /^pump/));
  await fold(page, hands, /^Features/);
  for (const id of Object.keys(pump).filter((n) => n !== 'spigot')) {
    await hands.fill(box(page, `Thread of ${id}`), '3/8-16 UNC');
    await quiet(page);
  }
  await hands.press(button(page, '4 Plate'));
  await hands.press(button(page, /^Begin the plate/));
  await hands.fill(box(page, 'Bore'), '4 1/4');
  await fold(page, hands, 'The pump on the plate');
  await hands.choose(box(page, 'pump: made concentric by'), 'a register on its centre');
  await hands.fill(box(page, 'pump: register diameter'), '5.504');
  await fold(page, hands, 'The motor on the plate');
  await hands.choose(box(page, 'motor: made concentric by'), 'a register on its centre');
  await hands.fill(box(page, 'motor: register diameter'), '130.10 mm');
  await hands.fill(box(page, 'motor: register depth'), '4.2 mm');
  await quiet(page);
};

const save = async (opened: OpenPage, hands: Hands): Promise<string> => {
  const { page } = opened;
  const [download] = await Promise.all([page.waitForEvent('download', patient), hands.press(button(page, 'Save'))]);
  return readFileSync(await download.path(), 'utf8');
};

const packet = async (page: Page, hands: Hands): Promise<Readonly<Record<string, Uint8Array>>> => {
  await hands.press(button(page, '5 Make'));
  await quiet(page);
  const ready = button(page, /^Save the packet/);
  await ready.waitFor(patient);
  const [download] = await Promise.all([page.waitForEvent('download', patient), hands.press(ready)]);
  return unzipSync(readFileSync(await download.path()));
};

describe.skipIf(whyNot !== null)(`a whole job ${inBrowser}`, () => {
  test.each([
    ['by pointing and typing', {}],
    ['by keyboard alone', {}],
    ['by touch, on a phone', { viewport: { width: 360, height: 740 }, hasTouch: true, isMobile: true }],
  ] as const)(
    '%s: from an empty page to the saved packet, the same as the command line makes',
    async (name, options) => {
      const opened = await openPage('', options);
      const { page } = opened;
      // As a browser that writes no files by itself: saved files arrive as downloads.
      await page.addInitScript(() => Object.assign(window, { showSaveFilePicker: undefined }));
      await page.reload();
      const hands = handsOf[name](page);
      await begin(page, hands);
      expect(await measure(page, hands, pump)).toBeGreaterThan(15);
      await compare(page, pump);
      await hands.press(button(page, /^motor/));
      expect(await measure(page, hands, motor)).toBeGreaterThan(8);
      await compare(page, motor);
      await hands.press(button(page, '2 Understand'));
      await page.locator('.report').first().waitFor(patient);
      await stack(page, hands);
      await plate(page, hands);
      const words = await page.locator('.verdict').first().innerText();
      const text = await save(opened, hands);
      // The words that the command line says of the saved file, laid out for the terminal.
      const plain = (t: string): string => t.replaceAll(/\s+/g, ' ');
      expect(plain(built(text, 'plate').out)).toContain(plain(words));
      // Nothing fails; what is not known yet (how far the studs stand out) is asked for.
      expect(words).toMatch(/^(?:Yes|Not yet):/);
      const made = await packet(page, hands);
      const wanted = built(text, 'packet').files;
      expect(Object.keys(made).sort()).toEqual(Object.keys(wanted).sort());
      for (const [file, content] of Object.entries(wanted))
        expect([file, Buffer.from(made[file] ?? []).equals(Buffer.from(content))]).toEqual([file, true]);
      expect({ asked: opened.asked, loud: opened.loud }).toEqual({ asked: [], loud: [] });
      await opened.close();
    },
  );
});
