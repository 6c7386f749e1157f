import { mkdirSync, mkdtempSync, readFileSync, renameSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import type { Io } from '../../src/index.js';
import { go } from '../support/go.js';
import { changed, pump } from '../support/pump.js';

const misread = changed('over P4 P10 = 7.873', 'over P4 P10 = 7.973');
let base = '';
let path = '';
let made = 0;
beforeAll(() => {
  base = mkdtempSync(join(tmpdir(), 'fayplate-watch-'));
});
beforeEach(() => {
  mkdirSync(join(base, String(++made)));
  path = join(base, String(made), 'job.yaml');
  writeFileSync(path, pump);
});
afterAll(() => rmSync(base, { recursive: true, force: true }));

/** `fayplate watch` under way on real files. */
const watching = async (file: string, more: Partial<Io> = {}) => {
  let said = '';
  let stop: () => void = () => undefined;
  const ended = go(
    ['watch', file],
    {},
    {
      out: (text) => {
        said += String(text);
      },
      err: (text) => {
        said += text;
      },
      read: (p) => readFileSync(p, 'utf8'),
      onStop: (end) => {
        stop = end;
      },
      ...more,
    },
  );
  /** Waits for a whole answer with these words in it, and forgets what was said. */
  const paints = async (words: string): Promise<string> => {
    while (!(said.includes(words) && said.endsWith('Ctrl-C ends it.\n')))
      await new Promise((resolve) => setTimeout(resolve, 20));
    const answer = said;
    said = '';
    return answer;
  };
  await paints('Centres of pump');
  return {
    paints,
    stop: async (): Promise<number> => {
      stop();
      return (await ended).code;
    },
  };
};

describe('watch', () => {
  test('solves again when the file is saved, in place or renamed over it, and ends when told to', async () => {
    const { paints, stop } = await watching(path);
    writeFileSync(path, misread);
    await paints('does not agree with the rest');
    writeFileSync(`${path}.new`, pump);
    renameSync(`${path}.new`, path);
    await paints('no reading is suspect');
    // Written beside, the old one kept under another name, as some editors do.
    writeFileSync(`${path}~new`, misread);
    renameSync(path, `${path}~`);
    renameSync(`${path}~new`, path);
    await paints('does not agree with the rest');
    expect(await stop()).toBe(0);
  });

  test('goes on over a job that is broken for a moment, and one that is gone', async () => {
    const { paints, stop } = await watching(path);
    writeFileSync(path, 'job: [half a sa');
    expect(await paints('nothing was worked out')).not.toContain('Centres of');
    writeFileSync(path, misread);
    await paints('does not agree with the rest');
    rmSync(path);
    await paints('is not there');
    writeFileSync(path, pump);
    await paints('no reading is suspect');
    expect(await stop()).toBe(0);
  });

  test('sees a list of readings beside the job, and a file behind a link', async () => {
    const list = join(path, '../pump.csv');
    const rows = [
      ...pump
        .slice(0, pump.indexOf('  motor:'))
        .matchAll(/- (over|between|angle) ([A-Za-z0-9 ]+) = ([^#\n]*?) by (\w+)/g),
    ].map(([, kind, features, value, by]) => [kind, features, value, '', by, ''].join(','));
    expect(rows.length).toBeGreaterThan(8);
    writeFileSync(list, `kind,features,value,plus_minus,instrument,note\n${rows.join('\n')}\n`);
    writeFileSync(path, pump.replace(/( {4}readings:)\n(?: {6}- .*\n)+\n {2}motor:/, '$1 pump.csv\n\n  motor:'));
    const link = join(base, `link-${made}.yaml`);
    const { paints, stop } = await watching(path);
    writeFileSync(list, readFileSync(list, 'utf8').replace('over,P4 P10,7.873', 'over,P4 P10,7.973'));
    await paints('does not agree with the rest');
    expect(await stop()).toBe(0);
    writeFileSync(path, pump);
    symlinkSync(path, link);
    const linked = await watching(link);
    writeFileSync(path, misread);
    await linked.paints('does not agree with the rest');
    expect(await linked.stop()).toBe(0);
  });

  test('repaints a terminal, and lets a log grow', async () => {
    const out: string[] = [];
    const { stop } = await watching(path);
    await stop();
    let end: () => void = () => undefined;
    const ended = go(
      ['watch', path, '--quiet'],
      {},
      {
        read: () => pump,
        interactive: true,
        out: (t) => void out.push(String(t)),
        onStop: (s) => {
          end = s;
        },
      },
    );
    while (!out.join('').includes('Centres of motor')) await new Promise((resolve) => setTimeout(resolve, 20));
    end();
    await ended;
    expect(out[0]).toBe('\u001b[2J\u001b[H');
  });

  test('refuses what cannot be watched', async () => {
    expect((await go(['watch', '-'], {})).code).toBe(2);
    expect((await go(['watch', join(base, 'none/job.yaml')], {})).err).toContain('there is no folder');
  });
});
