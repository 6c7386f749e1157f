// Makes the README's pictures of the page anew, from the built page and the example: node apps/page/pictures.mjs
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import packed from '@sparticuz/chromium';
import { chromium } from 'playwright-core';

const root = join(import.meta.dirname, '../..');
const whole = readFileSync(join(root, 'examples/lift-pump/job.yaml'), 'utf8');
/** Some readings not taken yet, so that the picture shows what is asked for. */
const begun = ['over P4 P6', 'over P6 P8', 'over P1 P6', 'over P3 P8'].reduce(
  (text, head) => text.replace(new RegExp(` {6}- ${head} .*\n`), ''),
  whole,
);
const empty = '<script type="application/json" id="job">""</script>';
const folder = mkdtempSync(join(tmpdir(), 'fayplate-pictures-'));
const pageOf = (name, job) => {
  const path = join(folder, name);
  writeFileSync(
    path,
    readFileSync(join(import.meta.dirname, 'bundle/page.html'), 'utf8').replace(empty, () =>
      empty.replace('""', () => JSON.stringify(job).replaceAll('<', '\\u003c')),
    ),
  );
  return path;
};
const browser = await chromium.launch({
  executablePath: await packed.executablePath(),
  args: ['--headless=shell', '--no-sandbox', '--disable-gpu'],
});
try {
  for (const [step, job] of [
    ['Measure', begun],
    ['Plate', whole],
  ]) {
    const context = await browser.newContext({ viewport: { width: 1200, height: 800 } });
    const page = await context.newPage();
    await page.goto(`file://${pageOf(`${step}.html`, job)}`);
    await page.getByRole('button', { name: new RegExp(`^\\d ${step}$`) }).click();
    await page.locator('.drawn svg').first().waitFor({ timeout: 60_000 });
    await page.locator('.working.idle').waitFor({ state: 'attached', timeout: 60_000 });
    await page.screenshot({ path: join(root, `examples/lift-pump/page-${step.toLowerCase()}.png`) });
    await context.close();
  }
} finally {
  await browser.close();
  rmSync(folder, { recursive: true, force: true });
}
