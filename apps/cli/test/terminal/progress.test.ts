import { describe, expect, test } from 'vitest';
import type { Io } from '../../src/index.js';
import { progressBar } from '../../src/terminal/progress.js';
import { onPump } from '../support/pump.js';

const barOf = (bars: boolean, quiet = false) => {
  const said: string[] = [];
  let time = 0;
  const io = { bars, err: (text: string) => void said.push(text) } as unknown as Io;
  const bar = progressBar(io, quiet, () => time);
  return { said, at: (ms: number, done: number, of: number) => ((time = ms), bar(done, of)) };
};

describe('a bar while long work runs', () => {
  test('is drawn only once the work has lasted half a second, grows, and is wiped at the end', () => {
    const { said, at } = barOf(true);
    at(0, 1, 8);
    at(499, 2, 8);
    expect(said).toEqual([]);
    at(600, 4, 8);
    at(610, 4, 8);
    at(900, 6, 8);
    expect(said.map((s) => s.trim())).toEqual([
      `[${'='.repeat(20)}${' '.repeat(20)}] 50 %`,
      `[${'='.repeat(30)}${' '.repeat(10)}] 75 %`,
    ]);
    at(1000, 8, 8);
    expect(said.at(-1)).toMatch(/^\r {45,}\r$/);
    // The next piece of work begins anew.
    at(1001, 1, 8);
    at(1100, 7, 8);
    at(1200, 8, 8);
    expect(said).toHaveLength(3);
  });

  test.each([
    ['no terminal', false, false],
    ['--quiet', true, true],
  ] as const)('%s: nothing is drawn', (_, bars, quiet) => {
    const { said, at } = barOf(bars, quiet);
    for (let t = 0; t <= 10; t++) at(1000 * t, t, 10);
    expect(said).toEqual([]);
  });

  test('quick work leaves nothing on a terminal', async () => {
    expect((await onPump(['locate', 'job.yaml'], undefined, { bars: true })).err).toBe('');
  });
});
