import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { inBrowser, patient, whyNot } from '../support/chromium.js';
import { judge, killWhileTyping } from '../support/kill.js';
import { keptTexts, openPage, pageWith } from '../support/page.js';

const job = `job: Two holes
units: mm
instruments:
  caliper: ± 0.05
faces:
  bracket:
    features:
      A: { kind: hole, diameter: 6 ± 0.05, clock: 12 }
      B: { kind: hole, diameter: 6 ± 0.05, clock: 4 }
      C: { kind: hole, diameter: 6 ± 0.05, clock: 8 }
    readings:
      - between A B = 40.00 by caliper   # the web
`;
let folder = '';
let path = '';

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'fayplate-kept-'));
  path = join(folder, 'fayplate.html');
  writeFileSync(path, pageWith(job));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

test('the judge of a trial: nothing that was said to be kept may be lost, and else one key at most', () => {
  expect(judge('12.3', true, '12.3').ok).toBe(true);
  expect(judge('12.3', false, '12.').ok).toBe(true);
  expect(judge('12.3', true, '12.').ok).toBe(false);
  expect(judge('12.3', false, '12').ok).toBe(false);
  expect(judge('12.3', true, '').ok).toBe(false);
});

describe.skipIf(whyNot !== null)(`what is typed ${inBrowser}`, () => {
  test.each([
    ['tab', '4'],
    ['tab', '41.2'],
    ['tab', '40.75'],
    ['browser', '4'],
    ['browser', '41.25'],
  ] as const)('is there again after the %s was killed in the middle of %s', async (what, keys) => {
    const trial = await killWhileTyping(path, [...keys], what);
    expect(trial.before).toBe(keys);
    expect(trial).toMatchObject({ ok: true });
  });

  test('is undone and done again without end, key by value, with every remark in its place', async () => {
    const { page, close } = await openPage(job);
    await page.locator('input.big').waitFor(patient);
    const undo = page.getByRole('button', { name: 'Undo', exact: true });
    const redo = page.getByRole('button', { name: 'Redo', exact: true });
    for (const value of ['41.2', '38.0']) {
      await page.locator('input.big').focus();
      await page.keyboard.type(value);
      await page.keyboard.press('Enter');
    }
    await page.getByRole('button', { name: 'Text', exact: true }).click();
    const text = async (): Promise<string> =>
      await page.locator('.cm-content').evaluate((e) => (e as HTMLElement).innerText);
    await page.locator('.cm-content').waitFor(patient);
    const full = await text();
    expect(full).toContain('# the web');
    expect(full.match(/ = 41\.2 | = 38\.0 /g)).toHaveLength(2);
    // The text beside the form follows with the next frame.
    await undo.click();
    await expect.poll(text, patient).not.toContain('38.0');
    expect(await text()).toContain('41.2');
    await undo.click();
    await expect.poll(text, patient).not.toContain('41.2');
    expect(await undo.isDisabled()).toBe(true);
    await redo.click();
    await redo.click();
    await expect.poll(text, patient).toBe(full);
    // Steps outlive the tab: a crash leaves them to be taken back.
    await undo.click();
    await page.locator('[data-keeping="kept"]').waitFor(patient);
    await page.reload();
    await page.locator('input.big').waitFor(patient);
    expect(await redo.isDisabled()).toBe(false);
    await undo.click();
    expect(await undo.isDisabled()).toBe(true);
    await close();
  });

  test('every key typed into the text stands there in its order, however fast they come', async () => {
    const { page, close } = await openPage(job);
    await page.locator('.drawn svg').waitFor(patient);
    await page.getByRole('button', { name: 'Text', exact: true }).click();
    await page.locator('.cm-line', { hasText: '# the web' }).click();
    await page.keyboard.press('End');
    const words = ' '.concat(Array.from({ length: 40 }, (_, n) => `w${n}`).join(' '));
    await page.keyboard.type(words);
    await page.locator('[data-keeping="kept"]').waitFor(patient);
    expect((await keptTexts(page))[0]).toContain(words);
    expect(await page.locator('.cm-content').innerText()).toContain(words);
    await close();
  });

  test('two tabs on one job keep their own, and each is told of the other', async () => {
    const { page, profile, path: file, close } = await openPage(job);
    await page.locator('input.big').fill('41.2');
    const other = await profile.context.newPage();
    await other.goto(`file://${file}`);
    await other.locator('input.big').waitFor(patient);
    await expect.poll(async () => await other.locator('.notices').innerText(), patient).toContain('another tab');
    await expect.poll(async () => await page.locator('.notices').innerText(), patient).toContain('another tab');
    // The second began from the file, not from what the first has open; what it types leaves the first as it is.
    await other.locator('input.big').fill('39.9');
    await expect.poll(async () => await page.locator('input.big').inputValue(), patient).toBe('41.2');
    await close();
  });

  test('where the browser gives no store, the page says so and everything else works', async () => {
    const { page, close } = await openPage(job);
    await page.addInitScript(() =>
      Object.defineProperty(window, 'indexedDB', {
        get: () => {
          throw new Error('private');
        },
      }),
    );
    await page.reload();
    await page.locator('input.big').fill('41.2');
    expect(await page.locator('.keeping').innerText()).toContain('does not let the page save');
    await close();
  });

  test('where the store is full, the page says so at once', async () => {
    const { page, close } = await openPage(job);
    await page.addInitScript(() => {
      IDBObjectStore.prototype.put = () => {
        throw new DOMException('full', 'QuotaExceededError');
      };
    });
    await page.reload();
    await page.locator('input.big').fill('41.2');
    await expect.poll(async () => await page.locator('.keeping').innerText(), patient).toContain('full');
    await close();
  });

  test('where the browser’s data are cleared meanwhile, the next key is kept again', async () => {
    const { page, profile, close } = await openPage(job);
    await page.locator('input.big').fill('41.2');
    await page.locator('[data-keeping="kept"]').waitFor(patient);
    const session = await profile.context.newCDPSession(page);
    await session.send('Storage.clearDataForOrigin', { origin: 'file:///', storageTypes: 'indexeddb' });
    await page.locator('input.big').fill('41.3');
    await page.locator('[data-keeping="kept"]').waitFor(patient);
    expect((await keptTexts(page))[0]).toContain('= 41.3 ');
    await close();
  });

  test('a file that was changed on the disk is not overwritten without a word', async () => {
    const { page, close } = await openPage(job);
    await page.addInitScript((text) => {
      const disk = { text, at: 1, written: [] as string[] };
      const handle = {
        name: 'bracket.yaml',
        getFile: () => Promise.resolve(new File([disk.text], 'bracket.yaml', { lastModified: disk.at })),
        createWritable: () =>
          Promise.resolve({
            write: (t: string) => {
              disk.text = t;
              disk.at += 1;
              disk.written.push(t);
              return Promise.resolve();
            },
            close: () => Promise.resolve(),
          }),
      };
      Object.assign(window, {
        disk,
        showOpenFilePicker: () => Promise.resolve([handle]),
        showSaveFilePicker: () => Promise.resolve(handle),
      });
    }, job);
    await page.reload();
    const written = async (): Promise<readonly string[]> =>
      await page.evaluate(() => (window as unknown as { readonly disk: { readonly written: string[] } }).disk.written);
    const says = async (): Promise<string> => await page.locator('.keeping').innerText();
    await page.getByRole('button', { name: 'Open', exact: true }).click();
    await expect.poll(says, patient).toBe('Saved in bracket.yaml.');
    await page.locator('input.big').fill('41.2');
    await page.getByRole('button', { name: 'Save', exact: true }).click();
    await expect.poll(async () => (await written()).length, patient).toBe(1);
    await expect.poll(says, patient).toBe('Saved in bracket.yaml.');
    await page.evaluate(() =>
      Object.assign((window as unknown as { disk: object }).disk, { text: 'job: other', at: 99 }),
    );
    await page.locator('input.big').fill('41.3');
    await page.getByRole('button', { name: 'Save', exact: true }).click();
    await expect
      .poll(async () => await page.locator('.notices').innerText(), patient)
      .toContain('was changed on the disk');
    expect(await written()).toHaveLength(1);
    await page.getByRole('button', { name: 'Overwrite it with mine' }).click();
    await expect.poll(async () => (await written()).length, patient).toBe(2);
    await close();
  });

  test.each([
    ['granted', ['41.2', '41.3']],
    ['denied', ['41.2']],
  ] as const)('a saved file is written to again after the tab was closed, once that is %s', async (answer, values) => {
    const { page, profile, close } = await openPage('');
    // Files of the browser's own stand for those of the disk, which it keeps from no page of a local file: this one
    // comes from a host.
    const host = 'https://fayplate.test/';
    await profile.context.route(host, (r) => r.fulfill({ contentType: 'text/html', body: pageWith(job) }));
    await profile.context.addInitScript((answer) => {
      const file = async (): Promise<FileSystemFileHandle> =>
        await (await navigator.storage.getDirectory()).getFileHandle('bracket.yaml', { create: true });
      Object.assign(window, { asked: 0, file, showSaveFilePicker: file });
      let given: PermissionState = performance.navigation.type === 0 ? 'granted' : 'prompt';
      Object.assign(FileSystemHandle.prototype, {
        queryPermission: () => Promise.resolve(given),
        requestPermission: () => {
          Object.assign(window, { asked: 1 });
          given = answer;
          return Promise.resolve(given);
        },
      });
    }, answer);
    interface Told {
      readonly asked: number;
      readonly file: () => Promise<FileSystemFileHandle>;
    }
    const written = async (): Promise<string> =>
      await page.evaluate(async () => {
        const { file } = window as unknown as Told;
        return await (await (await file()).getFile()).text();
      });
    const asked = async (): Promise<number> => await page.evaluate(() => (window as unknown as Told).asked);
    const save = page.getByRole('button', { name: 'Save', exact: true });
    await page.goto(host);
    await page.locator('input.big').fill('41.2');
    await save.click();
    await expect.poll(written, patient).toContain('41.2');
    expect(await asked()).toBe(0);
    await page.locator('[data-keeping="kept"]').waitFor(patient);
    await page.reload();
    await page.locator('.keeping', { hasText: 'Saved in bracket.yaml.' }).waitFor(patient);
    await page.getByRole('button', { name: 'Text', exact: true }).click();
    await page.locator('.cm-line', { hasText: '41.2' }).click();
    await page.keyboard.press('End');
    await page.keyboard.type('  # 41.3');
    await save.click();
    if (answer === 'granted') await expect.poll(written, patient).toContain('41.3');
    else await page.locator('.notices', { hasText: 'could not be written' }).waitFor(patient);
    expect(await asked()).toBe(1);
    const text = await written();
    expect(['41.2', '41.3'].filter((v) => text.includes(v))).toEqual(values);
    await close();
  });
});
