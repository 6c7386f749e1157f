import type { Locator, Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { inBrowser, patient, whyNot } from '../support/chromium.js';
import { example, goTo, openPage, quiet, textOf } from '../support/page.js';

const pump = example('lift-pump');

const middleOf = async (what: Locator): Promise<readonly [number, number]> => {
  const box = await what.boundingBox();
  if (box === null) throw new Error('it is not on the page');
  return [box.x + box.width / 2, box.y + box.height / 2];
};

/** Drags the knob of the ring to an angle about the ring's middle, degrees clockwise. */
const drag = async (page: Page, degrees: number): Promise<void> => {
  const [x, y] = await middleOf(page.locator('.turn-ring .knob'));
  const [cx, cy] = await middleOf(page.locator('.turn-ring .ring'));
  const r = Math.hypot(x - cx, y - cy);
  const a = (degrees * Math.PI) / 180;
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(cx + r * Math.sin(a), cy - r * Math.cos(a), { steps: 6 });
  await page.mouse.up();
};

describe.skipIf(whyNot !== null)(`pointing ${inBrowser}`, () => {
  test(
    'the second part is dragged round the plate: off the safe arcs ' +
      'its checks fail at their place, and a button puts it right',
    async () => {
      const { page, loud, close } = await openPage(pump);
      await goTo(page, 'Plate');
      const ring = page.locator('.turn-ring');
      await ring.waitFor(patient);
      await quiet(page);
      const slider = page.getByRole('slider', { name: 'Clocking: turn the second part' });
      expect(await ring.locator('.safe').count()).toBeGreaterThan(1);
      expect(await page.locator('.wrong').count()).toBe(0);
      await drag(page, 15);
      await expect.poll(async () => await slider.getAttribute('aria-valuenow'), patient).toBe('15');
      await expect.poll(async () => await page.locator('.wrong').count(), patient).toBeGreaterThan(0);
      expect(await page.locator('.verdict').first().innerText()).toMatch(/^No:/);
      await quiet(page);
      await page
        .getByRole('button', { name: /^turn \d/ })
        .first()
        .click();
      await expect.poll(async () => await page.locator('.wrong').count(), patient).toBe(0);
      await expect.poll(async () => await page.locator('.verdict').first().innerText(), patient).toMatch(/^Yes:/);
      // By keys the same: a degree at a time.
      const at = Number(await slider.getAttribute('aria-valuenow'));
      await slider.focus();
      await page.keyboard.press('ArrowRight');
      await expect.poll(async () => Number(await slider.getAttribute('aria-valuenow')), patient).toBe(at + 1);
      expect(await textOf(page)).toMatch(/clocking: -?[\d.]+ deg/);
      expect(loud).toEqual([]);
      await close();
    },
  );

  test('a link is typed on the section itself, and the window follows', async () => {
    const { page, loud, close } = await openPage(pump);
    await goTo(page, 'Stack');
    const reach = page.getByRole('button', { name: 'Size of reach' });
    await reach.waitFor(patient);
    const verdict = page.locator('.verdict').first();
    const before = await verdict.innerText();
    await reach.click();
    await page.keyboard.type('62.0 ± 0.2 mm');
    await expect.poll(async () => await verdict.innerText(), patient).not.toBe(before);
    await page.keyboard.press('Enter');
    expect(await page.locator('.in-place').count()).toBe(0);
    expect(await reach.evaluate((e) => e === document.activeElement)).toBe(true);
    await page.getByRole('button', { name: 'Limits of tip gap' }).click();
    expect(await page.getByLabel('tip gap: at most').first().inputValue()).toBe('3 mm');
    await page.keyboard.press('Escape');
    expect(await textOf(page)).toContain('reach: 62.0 ± 0.2 mm ');
    expect(loud).toEqual([]);
    await close();
  });

  test('a face turned by hand keeps its centres, and what is picked on it is what is under the finger', async () => {
    const { page, loud, close } = await openPage(pump);
    await page.locator('.drawn svg').waitFor(patient);
    await quiet(page);
    const centres = await page.locator('table.plain').innerText();
    const p1 = page.locator('[data-id="P1"]');
    const [x0, y0] = await middleOf(p1);
    await page.getByRole('button', { name: 'Turn the drawing as the part lies' }).click();
    await drag(page, 90);
    await expect
      .poll(async () => {
        const [x, y] = await middleOf(p1);
        const [cx, cy] = await middleOf(page.locator('[data-id="spigot"]'));
        return x - cx > 50 && Math.abs(y - cy) < 10;
      }, patient)
      .toBe(true);
    await quiet(page);
    expect(await page.locator('table.plain').innerText()).toBe(centres);
    await p1.click();
    await expect.poll(async () => await p1.getAttribute('aria-pressed'), patient).toBe('true');
    const apart = async (): Promise<number> => {
      const [x, y] = await middleOf(p1);
      return Math.hypot(x - x0, y - y0);
    };
    await page.getByRole('button', { name: 'Straight again' }).click();
    await page.getByRole('button', { name: 'Turn the drawing as the part lies' }).click();
    await expect.poll(async () => await apart(), patient).toBeLessThan(2);
    expect(loud).toEqual([]);
    await close();
  });

  test('a caliper that types its number and Enter in one burst goes from reading to reading', async () => {
    const begun = ['over P4 P6', 'over P6 P8', 'over P1 P6', 'over P3 P8'].reduce(
      (text, head) => text.replace(new RegExp(` {6}- ${head} .*\n`), ''),
      pump,
    );
    const { page, loud, close } = await openPage(begun);
    const box = page.locator('input.big');
    await box.waitFor(patient);
    await quiet(page);
    await box.focus();
    const heads: string[] = [];
    for (let n = 0; n < 2; n++) {
      heads.push(await page.locator('.reading code').innerText());
      for (const key of ['4', '.', '1', '2', '1', 'Enter']) await page.keyboard.press(key, { delay: 0 });
      await expect.poll(async () => await page.locator('.reading code').innerText(), patient).not.toBe(heads[n]);
      expect(await box.evaluate((e) => e === document.activeElement)).toBe(true);
      expect(await box.inputValue()).toBe('');
    }
    const text = await textOf(page);
    for (const head of heads) expect(text).toContain(`${head} = 4.121 by`);
    expect(loud).toEqual([]);
    await close();
  });

  test('where two arrangements fit, both are drawn, the answer is No, and the reading that settles it is one press away', async () => {
    // Two holes on the same side of a base line, or on both: nothing read yet says which.
    const two = `job: Two ways
units: mm
instruments: { caliper: ± 0.05 }
faces:
  plate:
    features:
      A: { kind: hole, diameter: 6 }
      B: { kind: hole, diameter: 6 }
      C: { kind: hole, diameter: 6 }
      D: { kind: hole, diameter: 6 }
    readings:
      - between A B = 74 by caliper
      - between A C = 54 by caliper
      - between B C = 44 by caliper
      - between A D = 50 by caliper
      - between B D = 52 by caliper
`;
    const { page, loud, close } = await openPage(two);
    await page.locator('.drawn svg').waitFor(patient);
    await quiet(page);
    await page.locator('.verdict.no').first().waitFor(patient);
    expect(await page.locator('.verdict.no').first().innerText()).toContain('arrangement');
    expect(await page.locator('[data-name="rivals"] *').count()).toBeGreaterThan(0);
    await page.getByRole('button', { name: 'Take between C D now' }).click();
    expect(await page.locator('.reading code').innerText()).toBe('between C D');
    expect(loud).toEqual([]);
    await close();
  });

  test('every feature on the drawing is within reach of the keys', async () => {
    const { page, loud, close } = await openPage(pump);
    await page.locator('.drawn svg').waitFor(patient);
    await quiet(page);
    const at = async (): Promise<string> =>
      await page.evaluate(() => document.activeElement?.getAttribute('data-id') ?? '');
    for (let n = 0; n < 60 && (await at()) === ''; n++) await page.keyboard.press('Tab');
    const seen: string[] = [];
    for (let n = 0; n < 8; n++) {
      seen.push(await at());
      await page.keyboard.press('ArrowRight');
    }
    expect(new Set(seen)).toEqual(new Set(['spigot', 'P1', 'P3', 'P4', 'P6', 'P8', 'P10', 'P11']));
    await page.keyboard.press('ArrowRight');
    const [a] = [await at(), await page.keyboard.press('Enter')];
    await page.keyboard.press('ArrowRight');
    const [b] = [await at(), await page.keyboard.press('Enter')];
    await expect.poll(async () => await page.locator('.do').innerText(), patient).toContain(`Picked ${a}, ${b}`);
    expect(loud).toEqual([]);
    await close();
  });

  test('the text offers the words of its place, and marks a fault at its line', async () => {
    const { page, loud, close } = await openPage(pump);
    await page.locator('.drawn svg').waitFor(patient);
    await quiet(page);
    await page.getByRole('button', { name: 'Text', exact: true }).click();
    const editor = page.locator('.cm-content');
    await editor.waitFor(patient);
    // The schema comes when it is first asked for.
    const offered = page.locator('.cm-tooltip-autocomplete');
    await editor.evaluate((e, mark) => {
      const line = [...e.querySelectorAll('.cm-line')].find((l) => (l.textContent ?? '').includes(mark));
      line?.scrollIntoView();
    }, 'units:');
    await page.locator('.cm-line', { hasText: /^units: in$/ }).click();
    await page.keyboard.press('End');
    await page.keyboard.press('Enter');
    await page.keyboard.type('gask');
    await expect
      .poll(async () => {
        // Asking again would begin the search for words anew: give each time to answer.
        await page.keyboard.press('Control+Space');
        await offered.waitFor({ timeout: 3000 }).catch(() => undefined);
        return (await offered.count()) === 0 ? '' : await offered.innerText();
      }, patient)
      .toContain('gaskets');
    await page.keyboard.press('Escape');
    await page.keyboard.type(': 7');
    await page.locator('.cm-lintRange-error').first().waitFor(patient);
    await page.keyboard.press('Control+z');
    expect(loud).toEqual([]);
    await close();
  });

  test('a part made to a standard is begun by its name alone, and one size is given to every stud at once', async () => {
    const { page, loud, close } = await openPage('');
    await page.getByLabel('Name of part 1').fill('saw');
    await page.getByLabel('Where on the clock, part 1').fill('12 2 4 7 9:30');
    await page.getByLabel('Name of part 2').fill('motor');
    await page.getByLabel('Standard of part 2, if it has one').fill('IEC FF165');
    await page.getByRole('button', { name: 'Begin' }).click();
    await page.getByRole('button', { name: /^motor: fixed$/ }).waitFor(patient);
    expect(await textOf(page)).toMatch(/\n {4}standard: IEC FF165\n/);
    await page.locator('summary', { hasText: /^Features: 6$/ }).click();
    const all = page.getByRole('form', { name: 'One size for all' });
    await all.getByLabel('All of one kind').selectOption('every stud');
    await all.getByLabel('which is').fill('3/8-16 UNC');
    await all.getByRole('button', { name: 'Give it to all' }).click();
    await all.getByLabel('have the same').selectOption('length out of the face');
    await all.getByLabel('which is').fill('13/16 in');
    await all.getByRole('button', { name: 'Give it to all' }).click();
    const text = await textOf(page);
    expect(text.match(/thread: 3\/8-16 UNC/g)).toHaveLength(5);
    expect(text.match(/stands: 13\/16 in/g)).toHaveLength(5);
    // One press takes it back from all of them.
    await page.getByRole('button', { name: 'Undo', exact: true }).click();
    await expect.poll(async () => (await textOf(page)).includes('stands'), patient).toBe(false);
    expect(loud).toEqual([]);
    await close();
  });
});
