import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import type { Page } from 'playwright-core';
import { openProfile, patient, whyNot } from '../test/support/chromium.js';
import { killWhileTyping } from '../test/support/kill.js';
import { example, goTo, openPage, pageWith, quiet } from '../test/support/page.js';
import { memoryOf } from '../test/support/processes.js';

const say = (what: string, value: string, goal: string): void =>
  console.log(`${what.padEnd(58)} ${value.padStart(12)}   ${goal}`);
const middle = (values: readonly number[]): number =>
  [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? 0;

/** A face of n holes on one circle, read from the bore and hole to hole, as a plan would have it. */
const ring = (n: number): string => {
  const [radius, hole, bore] = [100, 3, 40];
  const at = (i: number): readonly [number, number] => {
    const a = (2 * Math.PI * i) / n;
    return [radius * Math.sin(a), radius * Math.cos(a)];
  };
  const apart = (i: number, j: number): number => Math.hypot(at(i)[0] - at(j)[0], at(i)[1] - at(j)[1]) - 2 * hole;
  const clock = (i: number): string => {
    const minutes = Math.round((720 * i) / n) % 720;
    return `"${Math.floor(minutes / 60) || 12}:${String(minutes % 60).padStart(2, '0')}"`;
  };
  const ids = Array.from({ length: n }, (_, i) => i);
  return [
    'job: A ring',
    'units: mm',
    'instruments:',
    '  caliper: ± 0.05',
    'faces:',
    '  ring:',
    '    centre: bore',
    '    up: H1',
    '    features:',
    `      bore: { kind: bore, diameter: ${2 * bore} ± 0.05 }`,
    ...ids.map((i) => `      H${i + 1}: { kind: hole, diameter: ${2 * hole} ± 0.05, clock: ${clock(i)} }`),
    '    readings:',
    ...ids.map((i) => `      - between H${i + 1} bore = ${(radius - hole - bore).toFixed(2)} by caliper`),
    ...ids.map(
      (i) => `      - between H${i + 1} H${((i + 1) % n) + 1} = ${apart(i, (i + 1) % n).toFixed(2)} by caliper`,
    ),
    '',
  ].join('\n');
};

/**
 * From a key to the picture drawn anew, ms, for every key of some numbers, each typed over the reading of its place in
 * the list.
 */
const keysToPicture = async (page: Page, numbers: readonly string[]): Promise<readonly number[]> => {
  await page
    .locator('summary')
    .filter({ hasText: /^Readings taken/ })
    .click();
  const times: number[] = [];
  for (const [n, number] of numbers.entries()) {
    await page.locator('.taken button').nth(n).click();
    await page.locator('input.big').focus();
    await page.keyboard.press('Control+a');
    times.push(...(await keysOf(page, number)));
    await quiet(page);
  }
  return times;
};

const keysOf = async (page: Page, keys: string): Promise<readonly number[]> => {
  const times: number[] = [];
  for (const key of keys) {
    const drawn = page.evaluate(
      () =>
        new Promise<number>((resolve) => {
          // Where a key changes no line of the drawing there is nothing to wait for.
          setTimeout(() => resolve(NaN), 3000);
          const pressed = (): void => {
            const from = performance.now();
            new MutationObserver((_, seen) => {
              seen.disconnect();
              requestAnimationFrame(() => resolve(performance.now() - from));
            }).observe(document.querySelector('.drawn') ?? document.body, {
              childList: true,
              subtree: true,
              characterData: true,
            });
          };
          document.addEventListener('keydown', pressed, { once: true, capture: true });
        }),
    );
    await page.keyboard.press(key);
    const time = await drawn;
    if (!Number.isNaN(time)) times.push(time);
    // A person's pace; what is wrong with a number half typed is not waited for.
    await page.waitForTimeout(200);
  }
  return times;
};

const sizes = (): void => {
  const html = pageWith(example('lift-pump'));
  say('the file', `${(html.length / 1e6).toFixed(2)} MB`, 'goal 3.0');
  say('the file, compressed (gzip)', `${(gzipSync(html).length / 1e6).toFixed(2)} MB`, 'goal 1.1');
};

const opening = async (): Promise<void> => {
  for (const slow of [1, 4]) {
    const times: number[] = [];
    for (let n = 0; n < 3; n++) {
      const { page, profile, path, close } = await openPage('');
      const session = await profile.context.newCDPSession(page);
      await session.send('Emulation.setCPUThrottlingRate', { rate: slow });
      writeFileSync(path, pageWith(example('lift-pump')));
      await page.goto('about:blank');
      await page.goto(`file://${path}`);
      await page.locator('.drawn svg').waitFor(patient);
      times.push(await page.evaluate(() => performance.now()));
      await close();
    }
    say(
      `from opening to the drawn demo, the page's thread slowed ${slow} times`,
      `${middle(times).toFixed(0)} ms`,
      slow === 4 ? 'goal 1500' : '',
    );
  }
};

const typing = async (): Promise<void> => {
  for (const [n, goal] of [
    [12, 100],
    [60, 300],
  ] as const) {
    const { page, close } = await openPage(ring(n));
    await page.locator('.drawn svg').waitFor(patient);
    await quiet(page);
    const times = await keysToPicture(page, ['57.04', '56.97', '57.02', '56.96', '57.03']);
    say(
      `from a key to the picture, ${n} features (least, middle, worst of ${times.length})`,
      `${[Math.min(...times), middle(times), Math.max(...times)].map((t) => t.toFixed(0)).join(', ')} ms`,
      `goal ${goal}`,
    );
    await close();
  }
};

const packet = async (): Promise<void> => {
  const program = join(import.meta.dirname, '../../../cli/bin/fayplate.js');
  const folder = mkdtempSync(join(tmpdir(), 'fayplate-bench-'));
  writeFileSync(join(folder, 'job.yaml'), example('lift-pump'));
  const alone: number[] = [];
  if (existsSync(program))
    for (let n = 0; n < 3; n++) {
      const from = performance.now();
      spawnSync(process.execPath, [program, 'packet', 'job.yaml', '--out', `out${n}`], { cwd: folder });
      alone.push(performance.now() - from);
    }
  rmSync(folder, { recursive: true, force: true });
  const { page, close } = await openPage(example('lift-pump'));
  await goTo(page, 'Make');
  const button = page.getByRole('button', { name: /^Save the packet/ });
  await button.waitFor(patient);
  await quiet(page);
  const times: number[] = [];
  for (let n = 0; n < 3; n++) {
    const from = performance.now();
    await Promise.all([page.waitForEvent('download', patient), button.click()]);
    times.push(performance.now() - from);
  }
  say(
    'packet in the page',
    `${middle(times).toFixed(0)} ms`,
    `goal 1.5 × the command line's ${middle(alone).toFixed(0)}: ${(1.5 * middle(alone)).toFixed(0)}`,
  );
  await close();
};

/**
 * What the page's process holds: all steps looked at, then three packets one right after the other, beside a page of
 * one word.
 */
const memory = async (): Promise<void> => {
  const blank = await openProfile({ viewport: { width: 1280, height: 900 } });
  const [word = await blank.context.newPage()] = blank.context.pages();
  await word.setContent('<p>word</p>');
  await word.waitForTimeout(2000);
  const floor = memoryOf(blank.folder);
  await blank.close();
  const mb = (bytes: number): string => (bytes / 1e6).toFixed(0);
  const tell = (when: string, { own, resident }: typeof floor): void =>
    say(
      `memory of the page’s process, ${when}: own, resident`,
      `${mb(own)}, ${mb(resident)} MB`,
      `goal 150 of its own; a page of one word: ${mb(floor.own)}, ${mb(floor.resident)}`,
    );
  const { page, profile, close } = await openPage(example('lift-pump'));
  await quiet(page);
  await page.waitForTimeout(2000);
  tell('the demo drawn', memoryOf(profile.folder));
  for (const step of ['Understand', 'Stack', 'Plate', 'Prove', 'Make']) {
    await goTo(page, step);
    await quiet(page);
    await page.waitForTimeout(1000);
  }
  tell('every step looked at', memoryOf(profile.folder));
  const button = page.getByRole('button', { name: /^Save the packet/ });
  for (let n = 0; n < 3; n++) await Promise.all([page.waitForEvent('download', patient), button.click()]);
  await page.waitForTimeout(3000);
  tell('three packets saved', memoryOf(profile.folder));
  await close();
};

/** Some of these kills are tried in the tests; here a hundred of each, with seeded places to stop. */
const kills = async (): Promise<void> => {
  const many = Number(process.env['KILLS'] ?? 10);
  const folder = mkdtempSync(join(tmpdir(), 'fayplate-kills-'));
  const path = join(folder, 'fayplate.html');
  writeFileSync(path, pageWith(ring(4).replace(/ {6}- between H1 H2.*\n/, '')));
  let seed = 19;
  const random = (): number => (seed = (seed * 48271) % 2147483647) / 2147483647;
  for (const what of ['tab', 'browser'] as const) {
    let [lost, later] = [0, 0];
    for (let n = 0; n < many; n++) {
      const keys = Array.from({ length: 1 + Math.floor(5 * random()) }, () => String(1 + Math.floor(9 * random())));
      const trial = await killWhileTyping(path, keys, what);
      if (!trial.ok) lost += 1;
      if (!trial.kept) later += 1;
    }
    say(
      `${what} killed ${many} times while typing: keys lost that were kept`,
      String(lost),
      `goal 0; ${later} times the page still said “keeping”`,
    );
  }
  rmSync(folder, { recursive: true, force: true });
};

if (whyNot !== null) console.log(`No browser starts here: ${whyNot}`);
else {
  sizes();
  await opening();
  await typing();
  await packet();
  await memory();
  await kills();
}
