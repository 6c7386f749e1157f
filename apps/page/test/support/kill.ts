import type { Page } from 'playwright-core';
import { type Profile, openProfile, patient } from './chromium.js';
import { processesOf } from './processes.js';

/** What stands in the reading's box, and whether the page says that the browser has it. */
const seen = async (page: Page): Promise<{ readonly value: string; readonly kept: boolean }> => ({
  value: await page.locator('input.big').inputValue(),
  kept: (await page.locator('.keeping').getAttribute('data-keeping')) === 'kept',
});

/**
 * What one trial saw before and found after: nothing may be lost that the page said was kept, and else no more than the
 * last key.
 */
export interface Trial {
  readonly before: string;
  readonly kept: boolean;
  readonly after: string;
  readonly ok: boolean;
}

export const judge = (before: string, kept: boolean, after: string): Trial => ({
  before,
  kept,
  after,
  ok: after === before || (!kept && after === before.slice(0, -1)),
});

const opened = async (profile: Profile, path: string): Promise<Page> => {
  const page = await profile.context.newPage();
  await page.goto(`file://${path}`);
  await page.locator('input.big').waitFor(patient);
  return page;
};

/** The reading that is written in the job under this head, or ''. */
const written = async (page: Page, head: string): Promise<string> => {
  const fold = page.locator('summary').filter({ hasText: /^Readings taken/ });
  // A reading in doubt has opened it already.
  await fold.evaluate((summary) => summary.closest('details')?.setAttribute('open', ''));
  await page.locator('.taken, p:text-is("None yet.")').first().waitFor(patient);
  const line = page.locator('.taken button').filter({ hasText: head }).first();
  if ((await line.count()) === 0 || (await line.locator('.value').count()) === 0) return '';
  return await line.locator('.value').innerText();
};

/**
 * Types a number into the reading in hand and kills the tab, or the whole browser, in the middle; then opens the page
 * again on the same profile and looks at what is there. `keys`: how many keys are typed before.
 */
export const killWhileTyping = async (
  path: string,
  keys: readonly string[],
  what: 'tab' | 'browser',
): Promise<Trial> => {
  let profile = await openProfile();
  let page = await opened(profile, path);
  const head = await page.locator('.reading code').innerText();
  await page.locator('input.big').focus();
  for (const key of keys) await page.keyboard.press(key);
  const { value, kept } = await seen(page);
  if (what === 'tab') {
    const session = await profile.context.newCDPSession(page);
    const gone = page.waitForEvent('crash', patient);
    session.send('Page.crash').catch(() => null);
    await gone;
  } else {
    const { folder } = profile;
    const ended = new Promise<void>((resolve) => void profile.context.once('close', () => resolve()));
    for (const pid of processesOf(folder))
      try {
        process.kill(pid, 'SIGKILL');
      } catch {
        // Gone with the one before it.
      }
    await ended;
    profile = await openProfile({}, folder);
  }
  page = await opened(profile, path);
  // A tab that has just crashed may be told of as open for a moment: what it left comes when the browser has seen its
  // end.
  let trial = judge(value, kept, await written(page, head));
  for (let n = 0; n < 100 && !trial.ok; n++) {
    await page.waitForTimeout(100);
    trial = judge(value, kept, await written(page, head));
  }
  await profile.close();
  return trial;
};
