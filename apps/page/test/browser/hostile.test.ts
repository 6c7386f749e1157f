import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { inBrowser, patient, whyNot } from '../support/chromium.js';
import { type OpenPage, drop, example, goTo, openPage, quiet } from '../support/page.js';

const pump = example('lift-pump');

/** Markup, scripts, direction marks and endings wherever a job may hold a text. */
const bait = [
  '<img src=x onerror=alert(1)>',
  '</script><script>alert(2)</script>',
  '"><svg onload=alert(3)>',
  "');alert(4);//",
  '{{constructor.constructor("alert(5)")()}}',
  '\u202Egnp.exe',
  'javascript:alert(6)',
  '<!--<script>',
  '${alert(7)}',
];
const baited = (text: string): readonly string[] => [
  pump.replace('job: Heron Lane lift pump', `job: ${JSON.stringify(text)}`),
  pump.replace('material: aluminium', `material: ${JSON.stringify(text.slice(0, 50))}`),
  pump.replace('# straight across', `# ${text.replaceAll('\n', ' ')}`),
  pump.replace('caliper: ± 0.002 in', `${JSON.stringify(text.slice(0, 40))}: ± 0.002 in`),
  pump.replace('      P1: {', `      ${JSON.stringify(text.slice(0, 40))}: {`),
  pump.replace('over P1 P3 = 4.121', `over P1 ${text.slice(0, 30).replaceAll(/[#:]/g, '')} = 4.121`),
];

const broken = [
  '',
  '\u0000',
  '- a\n- b\n',
  '{',
  'a: &x [*x]\nb: *x\n',
  `a: ${'['.repeat(2000)}`,
  'x: 1\n'.repeat(3),
  pump.replaceAll('\n', '\r'),
  pump.replace('units: in', 'units: furlongs'),
  pump.replace('7 39/64', '7,39'),
  `# ${'long '.repeat(100_000)}\n${pump}`,
  pump.replace('centre: spigot', 'centre: __proto__'),
  'job: x\nunits: mm\nfaces: { __proto__: { features: { constructor: { kind: hole } }, readings: [] } }\n',
];

/** So many features that nothing of them can be drawn at leisure. */
const many = (n: number): string =>
  [
    'job: Many',
    'units: mm',
    'instruments: { caliper: ± 0.05 }',
    'faces:',
    '  disc:',
    '    features:',
    ...Array.from({ length: n }, (_, i) => `      F${i}: { kind: hole, diameter: 6, clock: ${1 + (i % 12)} }`),
    '    readings:',
    ...Array.from({ length: n - 1 }, (_, i) => `      - between F${i} F${i + 1} = ${20 + (i % 7)} by caliper`),
    '',
  ].join('\n');

/** Whether the page draws again: one that stands still, whatever its worker does, never would. */
const answers = async (page: Page): Promise<boolean> => {
  let timer: NodeJS.Timeout | undefined;
  const tick = page.evaluate(() => new Promise<boolean>((resolve) => requestAnimationFrame(() => resolve(true))));
  const never = new Promise<boolean>((resolve) => (timer = setTimeout(() => resolve(false), patient.timeout)));
  return await Promise.race([tick, never]).finally(() => clearTimeout(timer));
};

describe.skipIf(whyNot !== null)(`hostile jobs ${inBrowser}`, () => {
  let opened: OpenPage;
  beforeAll(async () => {
    opened = await openPage(pump);
    await opened.page.locator('.drawn svg').waitFor(patient);
  });
  afterAll(async () => await opened.close());

  test.each(bait)('%j runs nowhere: no script, no dialog, no request, no frozen page', async (text) => {
    const { page, asked, loud } = opened;
    for (const job of baited(text)) {
      await drop(page, job);
      await quiet(page);
      for (const step of ['Plate', 'Measure']) {
        await goTo(page, step);
        await quiet(page);
      }
      expect(await answers(page)).toBe(true);
      expect(await page.locator('#page img, #page script, #page iframe').count()).toBe(0);
    }
    expect({ asked, loud }).toEqual({ asked: [], loud: [] });
  });

  test('what is no job is told at its line, and a sound one may follow', async () => {
    const { page, asked, loud } = opened;
    for (const job of broken) {
      await drop(page, job);
      await quiet(page);
      expect([job.slice(0, 40), await answers(page), loud]).toEqual([job.slice(0, 40), true, []]);
    }
    await drop(page, pump.replace('7 39/64', '7,39'));
    await expect
      .poll(async () => await page.locator('.faulty').first().innerText(), patient)
      .toMatch(/Line \d+: Found/);
    await page.getByRole('button', { name: 'Show it in the text' }).click();
    await page.locator('.cm-lintRange-error').first().waitFor(patient);
    await page.getByRole('button', { name: 'Text', exact: true }).click();
    await drop(page, pump);
    await expect.poll(async () => await page.locator('.faulty').count(), patient).toBe(0);
    expect({ asked, loud }).toEqual({ asked: [], loud: [] });
  });

  test('a job in the page’s own element ends no element', async () => {
    const { page, loud, close } = await openPage(`job: "</script><script>alert(1)</script><!--"\nunits: mm\n`);
    await page.locator('h1').waitFor(patient);
    expect(await page.locator('h1').innerText()).toContain('</script>');
    expect(loud).toEqual([]);
    await close();
  });

  test('2,000 features: the page stays at hand, and the person can stop the work', async () => {
    const { page, close } = await openPage(pump);
    await drop(page, many(2000));
    const stop = page.getByRole('button', { name: 'Stop', exact: true });
    await Promise.race([stop.waitFor(patient), quiet(page)]);
    expect(await answers(page)).toBe(true);
    // The work may end by itself between the look and the click.
    const stopped = await stop.click({ timeout: 2000 }).then(
      () => true,
      () => false,
    );
    if (stopped) {
      await expect.poll(async () => await page.locator('.notices').innerText(), patient).toMatch(/Stopped|^$/);
    }
    // What is asked for next is answered, by a worker that stood ready.
    await drop(page, pump);
    await expect.poll(async () => await page.locator('h1').innerText(), patient).toBe('Heron Lane lift pump');
    await page.locator('.drawn svg').waitFor(patient);
    await close();
  });
});
