import { createHash } from 'node:crypto';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { go } from '../support/go.js';
import { inBrowser, open, patient, whyNot } from './browser.js';
import { type Focused, beyond, focused, leastContrast, reachable } from './look.js';
import { rulerIn } from './ruler.js';

const job = readFileSync(join(import.meta.dirname, '../../../../examples/lift-pump/job.yaml'), 'utf8');
let folder = '';
let html = '';
let path = '';

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'fayplate-page-'));
  html = String((await go(['packet', 'job.yaml', '--out', 'out'], { 'job.yaml': job })).files.get('out/packet.html'));
  path = join(folder, 'packet.html');
  writeFileSync(path, html);
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

test('the page holds everything itself: one script that its policy names, nothing fetched, no id twice', () => {
  const scripts = [...html.matchAll(/<script>([\s\S]*?)<\/script>/g)].map((m) => m[1] ?? '');
  expect(scripts).toHaveLength(1);
  const hash = createHash('sha256')
    .update(scripts[0] ?? '')
    .digest('base64');
  expect(html).toContain(`script-src 'sha256-${hash}'`);
  expect(html.replace(/<script>[\s\S]*?<\/script>/, '')).not.toMatch(/<script|\son\w+=|\bsrc=|<link|@import|url\(/i);
  expect(html.match(/href="[^"]*"/g)?.every((h) => h.startsWith('href="#'))).toBe(true);
  const ids = html.match(/ id="[^"]*"/g) ?? [];
  expect(new Set(ids).size).toBe(ids.length);
});

describe.skipIf(whyNot !== null)(`the packet’s page ${inBrowser}`, () => {
  test.each([360, 1280])('at %i px nothing reaches beyond the page, and text stands out', async (width) => {
    const { page, close } = await open(path, width);
    expect(await page.evaluate(beyond)).toEqual([]);
    // WCAG 2.2, 1.4.6 (level AAA): 7 : 1 for text.
    const { ratio, where } = await page.evaluate(leastContrast);
    expect({ where, enough: ratio >= 7 }).toEqual({ where, enough: true });
    // Values that must fail.
    await page.addStyleTag({ content: 'footer p { color: #999; white-space: nowrap; }' });
    expect((await page.evaluate(leastContrast)).ratio).toBeLessThan(4.5);
    if (width === 360) expect(await page.evaluate(beyond)).not.toEqual([]);
    await close();
  });

  test('the keyboard reaches every link and every region that scrolls, and one sees where it is', async () => {
    const { page, close } = await open(path, 360);
    const want = await page.evaluate(reachable);
    const seen: Focused[] = [];
    for (let n = 0; n < want.length; n++) {
      await page.keyboard.press('Tab');
      seen.push(await page.evaluate(focused));
    }
    expect(seen.map((f) => f.what)).toEqual(want);
    expect(seen.filter((f) => f.outline < 2 || !f.inSight)).toEqual([]);
    await page.locator('nav a').last().focus();
    await page.keyboard.press('Enter');
    await expect.poll(async () => await page.evaluate(() => window.scrollY), patient).toBeGreaterThan(1000);
    await close();
  });

  test('on a phone every table folds: nothing is scrolled sideways but a setting', async () => {
    const { page, close } = await open(path, 360);
    const wide = await page.evaluate(() =>
      [...document.querySelectorAll('.wide:not(.whole)')]
        .filter((e) => e.scrollWidth > e.clientWidth + 1)
        .map((e) => e.getAttribute('aria-label')),
    );
    expect(wide).toEqual([]);
    // A value that must fail.
    await page.addStyleTag({ content: '.wide td { display: table-cell !important; min-width: 90vw !important }' });
    expect(await page.evaluate(() => document.querySelector('.wide')?.scrollWidth ?? 0)).toBeGreaterThan(360);
    await close();
  });

  test.each(['light', 'dark'] as const)(
    'by %s a cut stays ticked, and a hole and its cuts are found from each other',
    async (scheme) => {
      const { page, close } = await open(path, 360);
      await page.emulateMedia({ colorScheme: scheme });
      const { ratio, where } = await page.evaluate(leastContrast);
      expect({ where, enough: ratio >= 7 }).toEqual({ where, enough: true });
      const box = page.locator('#cut-3 input');
      await box.check();
      await page.reload();
      expect(await box.isChecked()).toBe(true);
      expect(await page.locator('#cut-4 input').isChecked()).toBe(false);
      const link = page.locator('svg a[href^="#cut-"]').first();
      const cut = (await link.getAttribute('href')) ?? '';
      await link.focus();
      await page.keyboard.press('Enter');
      await expect.poll(async () => await page.evaluate(() => location.hash), patient).toBe(cut);
      const hole = page.locator(`${cut} td a`);
      await hole.click();
      const target = (await hole.getAttribute('href')) ?? '';
      expect(await page.locator(target).count()).toBe(1);
      expect(await page.locator(`a:has(> ${target})`).getAttribute('href')).toBe(cut);
      await close();
    },
  );

  test('on a phone the settings are scrolled, not shrunk past reading', async () => {
    const { page, close } = await open(path, 360);
    const heights = await page.evaluate(() =>
      [...document.querySelectorAll('.whole svg path[aria-label^="H"]')].map((e) => e.getBoundingClientRect().height),
    );
    expect(heights.length).toBeGreaterThan(10);
    // Capitals; 8 px of a screen held in the hand are some 1.3 mm.
    expect(Math.min(...heights)).toBeGreaterThan(8);
    await close();
  });

  test('it is read without script, and nothing but the file is asked for', async () => {
    const { page, context, close } = await open(path, 360, false);
    const asked: string[] = [];
    context.on('request', (request) => asked.push(request.url()));
    await page.reload({ waitUntil: 'networkidle' });
    expect(asked).toEqual([`file://${path}`]);
    expect(await page.locator('h1').innerText()).toMatch(/^Heron Lane lift pump\b/);
    expect(await page.locator('.verdict').count()).toBeGreaterThan(4);
    await close();
  });

  test('printed at 100 %, its ruler is 100 mm long', async () => {
    const { page, close } = await open(path, 1280);
    const printed = await rulerIn(await page.pdf({ format: 'A4' }));
    expect(printed).not.toBeNull();
    expect(Math.abs((printed ?? 0) - 100)).toBeLessThan(0.1);
    // A value that must fail: fitted to the page by a printer's driver.
    expect(Math.abs(((await rulerIn(await page.pdf({ format: 'A4', scale: 0.97 }))) ?? 0) - 100)).toBeGreaterThan(2);
    await close();
  });
});
