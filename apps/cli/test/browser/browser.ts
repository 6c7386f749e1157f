import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type BrowserContext, type Page, chromium } from 'playwright-core';

/** Debian's browser (apt install chromium). Where it is not installed the tests that need it are skipped, and say so by their names. */
export const browser = '/usr/bin/chromium';
export const isThere = existsSync(browser);

export interface Opened {
  readonly page: Page;
  readonly context: BrowserContext;
  readonly close: () => Promise<void>;
}

/** A file in a browser of its own, with an empty profile. */
export const open = async (path: string, width: number, script = true): Promise<Opened> => {
  const profile = mkdtempSync(join(tmpdir(), 'fayplate-browser-'));
  const context = await chromium.launchPersistentContext(profile, {
    executablePath: browser,
    headless: true,
    args: [
      '--headless',
      '--no-sandbox',
      '--disable-gpu',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
    ],
    viewport: { width, height: 740 },
    javaScriptEnabled: script,
  });
  const page = await context.newPage();
  await page.goto(`file://${path}`);
  return {
    page,
    context,
    close: async () => {
      await context.close();
      rmSync(profile, { recursive: true, force: true, maxRetries: 5 });
    },
  };
};
