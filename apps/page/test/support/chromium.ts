import { existsSync, mkdirSync, mkdtempSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import packed from '@sparticuz/chromium';
import { type BrowserContext, type BrowserContextOptions, chromium } from 'playwright-core';

/** How long a state of the page is waited for, ms: so long that only a hang meets it, however busy the machine. */
export const patient = { timeout: 300_000 };

/** Chromium as it lies in a package of the registry, with what it needs: nothing is installed on the machine. */
const args = [
  '--headless=shell',
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  // A container's shared memory may be too small for a page.
  '--disable-dev-shm-usage',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  '--use-gl=angle',
  '--use-angle=swiftshader',
];

/**
 * Two rooms' tests may unpack it at the same moment: one does, the other waits. A lock older than this was left behind,
 * ms.
 */
const STALE = 600_000;
const lock = join(tmpdir(), 'fayplate-chromium.lock');

const unpacked = async (): Promise<string> => {
  for (;;) {
    try {
      mkdirSync(lock);
      break;
    } catch {
      if (existsSync(lock) && Date.now() - statSync(lock).mtimeMs > STALE)
        rmSync(lock, { recursive: true, force: true });
      await wait(200);
    }
  }
  try {
    return await packed.executablePath();
  } finally {
    rmSync(lock, { recursive: true, force: true });
  }
};

export interface Profile {
  readonly context: BrowserContext;
  readonly folder: string;
  /** Ends the browser; the profile's folder goes too, unless it is kept for another start. */
  readonly close: (keep?: boolean) => Promise<void>;
}

/**
 * A start that fails, or takes longer than this, ms, is tried anew: on a busy machine it may, and a browser killed on
 * the same profile may still be ending.
 */
const START = 180_000;
const TIMES = 3;

const launched = async (folder: string, options: BrowserContextOptions): Promise<BrowserContext> => {
  const executablePath = await unpacked();
  for (let n = 1; ; n++)
    try {
      return await chromium.launchPersistentContext(folder, {
        executablePath,
        headless: true,
        args,
        ignoreDefaultArgs: ['--headless'],
        timeout: START,
        ...options,
      });
    } catch (error) {
      if (n === TIMES) throw error;
      await wait(1000 * n);
    }
};

/** A browser of its own with an empty profile, or on one that was kept. */
export const openProfile = async (
  options: BrowserContextOptions = {},
  kept: string | null = null,
): Promise<Profile> => {
  const folder = kept ?? mkdtempSync(join(tmpdir(), 'fayplate-browser-'));
  const context = await launched(folder, options);
  context.setDefaultTimeout(patient.timeout);
  context.setDefaultNavigationTimeout(patient.timeout);
  return {
    context,
    folder,
    close: async (keep = false) => {
      await context.close();
      if (keep) return;
      try {
        rmSync(folder, { recursive: true, force: true, maxRetries: 10, retryDelay: 200 });
      } catch {
        // A process of the browser that is still ending writes into it: it is the temporary folder's to clear.
      }
    },
  };
};

const tried = async (): Promise<string | null> => {
  try {
    const { close } = await openProfile();
    await close();
    return null;
  } catch (error) {
    return (error instanceof Error ? error.message : String(error)).split('\n')[0] ?? 'unknown';
  }
};

/** Why no browser starts on this machine; null where one does. */
export const whyNot: string | null = await tried();

/**
 * What a group of browser tests is called: where none starts its tests are skipped, and their name says why (`.ci/run`
 * then fails).
 */
export const inBrowser = whyNot === null ? 'in a browser' : `in a browser (skipped: none starts here: ${whyNot})`;
