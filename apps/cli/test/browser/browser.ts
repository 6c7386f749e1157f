import type { BrowserContext, Page } from 'playwright-core';
import { openProfile } from '../../../page/test/support/chromium.js';

export { inBrowser, patient, whyNot } from '../../../page/test/support/chromium.js';

export interface Opened {
  readonly page: Page;
  readonly context: BrowserContext;
  readonly close: () => Promise<void>;
}

/** A file in a browser of its own, with an empty profile. */
export const open = async (path: string, width: number, script = true): Promise<Opened> => {
  const { context, close } = await openProfile({ viewport: { width, height: 740 }, javaScriptEnabled: script });
  const page = await context.newPage();
  await page.goto(`file://${path}`);
  return { page, context, close: async () => await close() };
};
