import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { BrowserContextOptions, Page } from 'playwright-core';
import { type Profile, openProfile, patient } from './chromium.js';

const root = join(import.meta.dirname, '../../../..');
const built = join(import.meta.dirname, '../../bundle/page.html');

export const example = (name: string): string => readFileSync(join(root, 'examples', name, 'job.yaml'), 'utf8');

const EMPTY = '<script type="application/json" id="job">""</script>';

/** The built page with a job in it, as the command line writes it. */
export const pageWith = (job: string): string => {
  if (!existsSync(built)) throw new Error('the page has not been built: run its build first');
  const page = readFileSync(built, 'utf8');
  if (!page.includes(EMPTY)) throw new Error('the page has no place for a job');
  return page.replace(EMPTY, () => EMPTY.replace('""', () => JSON.stringify(job).replaceAll('<', '\\u003c')));
};

export interface OpenPage {
  readonly page: Page;
  readonly profile: Profile;
  readonly path: string;
  /** Everything that the page asked the network or the disk for, the file itself left out. */
  readonly asked: string[];
  /** Dialogs that came up, errors that were thrown, and words on the console. */
  readonly loud: string[];
  readonly close: () => Promise<void>;
}

/** The page opened from a file in a browser of its own. */
export const openPage = async (job: string, options: BrowserContextOptions = {}): Promise<OpenPage> => {
  const folder = mkdtempSync(join(tmpdir(), 'fayplate-page-'));
  const path = join(folder, 'fayplate.html');
  writeFileSync(path, pageWith(job));
  const profile = await openProfile({ viewport: { width: 1280, height: 900 }, acceptDownloads: true, ...options });
  const [page = await profile.context.newPage()] = profile.context.pages();
  const asked: string[] = [];
  const loud: string[] = [];
  profile.context.on('request', (r) => {
    if (r.url() !== `file://${path}` && !r.url().startsWith('blob:')) asked.push(r.url());
  });
  page.on('dialog', (d) => {
    loud.push(`dialog ${d.message()}`);
    void d.dismiss();
  });
  page.on('pageerror', (e) => loud.push(`error ${e.message}`));
  page.on('console', (m) => {
    if (m.type() === 'error' || m.type() === 'warning') loud.push(`console ${m.text()}`);
  });
  await page.goto(`file://${path}`);
  return {
    page,
    profile,
    path,
    asked,
    loud,
    close: async () => {
      await profile.close();
      rmSync(folder, { recursive: true, force: true });
    },
  };
};

/** The jobs that the browser has kept, as text. */
export const keptTexts = async (page: Page): Promise<readonly string[]> =>
  await page.evaluate(
    () =>
      new Promise<readonly string[]>((resolve, reject) => {
        const opening = indexedDB.open('fayplate', 1);
        opening.addEventListener('error', () => reject(new Error('no store')));
        opening.addEventListener('success', () => {
          const db = opening.result;
          const all = db.transaction('jobs').objectStore('jobs').getAll() as IDBRequest<{ text: string }[]>;
          all.addEventListener('success', () => {
            db.close();
            resolve(all.result.map(({ text }) => text));
          });
        });
      }),
  );

/** Until nothing is being worked out. */
export const quiet = async (page: Page): Promise<void> =>
  await page.locator('.working.idle').waitFor({ state: 'attached', ...patient });

/**
 * Puts another job in place of the one that is open, as if its file were dropped on the page, and waits until it has
 * been taken.
 */
export const drop = async (page: Page, text: string): Promise<void> => {
  // Before it is drawn the page listens to nothing.
  await page.locator('.working').waitFor({ state: 'attached', ...patient });
  await page.evaluate((text) => {
    const data = new DataTransfer();
    data.items.add(new File([text], 'job.yaml'));
    document.dispatchEvent(new DragEvent('drop', { dataTransfer: data, bubbles: true, cancelable: true }));
  }, text);
  while (!(await keptTexts(page)).includes(text)) await page.waitForTimeout(50);
};

/** To a step of the work, by its name. */
export const goTo = async (page: Page, step: string): Promise<void> => {
  await page.getByRole('button', { name: new RegExp(`^\\d ${step}$`) }).click();
};

/** The job's text as the browser's store has it, once the last key is in it. */
export const textOf = async (page: Page): Promise<string> => {
  await page.locator('[data-keeping="kept"]').waitFor(patient);
  return (await keptTexts(page))[0] ?? '';
};
