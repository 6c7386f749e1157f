import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { readJob } from '../src/index.js';
import { large } from './hostile/large.js';
import { wrongs } from './sound.js';

const folder = join(import.meta.dirname, 'hostile');
const expected = JSON.parse(readFileSync(join(folder, 'expected.json'), 'utf8')) as Readonly<
  Record<string, { readonly reads: boolean; readonly why: string }>
>;

describe('hostile files', () => {
  test('each has its answer', () =>
    expect(Object.keys(expected).sort()).toEqual(
      readdirSync(folder)
        .filter((f) => f.endsWith('.yaml'))
        .sort(),
    ));

  test.each(Object.entries(expected))('%s', (file, { reads }) => {
    const text = readFileSync(join(folder, file), 'utf8');
    const read = readJob(text);
    expect(read.ok).toBe(reads);
    expect(wrongs(text, read)).toEqual([]);
  });

  test('words for people are kept as they are: every medium makes them harmless in its own way', () => {
    const read = readJob(readFileSync(join(folder, 'words-hostile.yaml'), 'utf8'));
    expect(read.ok && read.job.name).toMatch(/^=HYPERLINK.*<script>.*\.\.\/\.\.\/x/);
  });
});

/**
 * An eighth of their size: that they end and answer is what counts here; the bench reads them whole and says how soon.
 */
const texts = large(1 / 8);

describe('large hostile files', () => {
  test.each(Object.keys(texts))('%s', (name) => {
    const text = texts[name]?.() ?? '';
    expect(text.length).toBeGreaterThan(20_000);
    const read = readJob(text);
    expect(wrongs(text, read)).toEqual([]);
    expect(read.ok ? 'reads' : 'refused').toBe(name.startsWith('reads:') ? 'reads' : 'refused');
  });
});
