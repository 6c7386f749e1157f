import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { go } from '../support/go.js';
import { browser, isThere, open } from './browser.js';
import { type Focused, beyond, focused, leastContrast, reachable } from './look.js';
import { rulerIn } from './ruler.js';

const job = readFileSync(join(import.meta.dirname, '../../../../examples/lift-pump/job.yaml'), 'utf8');
const patient = { timeout: 60_000 };
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

test('the page holds everything itself: no script, nothing fetched, no id twice', () => {
  expect(html).not.toMatch(/<script|\son\w+=|\bsrc=|<link|@import|url\(/i);
  expect(html.match(/href="[^"]*"/g)?.every((h) => h.startsWith('href="#'))).toBe(true);
  const ids = html.match(/ id="[^"]*"/g) ?? [];
  expect(new Set(ids).size).toBe(ids.length);
});

describe.skipIf(!isThere)(`in a browser (skipped where ${browser} is not installed)`, () => {
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
    const region = page.locator('.wide').filter({ hasText: 'Rev/min' }).first();
    await region.focus();
    await page.keyboard.press('ArrowRight');
    await expect.poll(async () => await region.evaluate((e) => e.scrollLeft), patient).toBeGreaterThan(0);
    await close();
  });

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
    expect(await page.locator('h1').innerText()).toBe('Heron Lane lift pump');
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
