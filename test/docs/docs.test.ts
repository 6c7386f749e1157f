import { existsSync, readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { fayplate, root } from '../support/cli.js';
import { asShown, shownIn } from './blocks.js';

/** `UPDATE_DOCS=1 npx vitest run docs` in this folder writes the present answers into the documents. */
const refresh = process.env['UPDATE_DOCS'] === '1';
const examples = readdirSync(join(root, 'examples'), { recursive: true, encoding: 'utf8' })
  .filter((f) => f.endsWith('.md') && !f.includes('node_modules'))
  .map((f) => `examples/${f}`);
const documents = [
  'README.md',
  'DEVELOPERS.md',
  '.github/CONTRIBUTING.md',
  'apps/cli/CHANGELOG.md',
  'apps/cli/DEPENDENCIES.md',
  ...examples,
];

describe.each(documents)('%s', (name) => {
  const path = join(root, name);
  const text = readFileSync(path, 'utf8');
  const shown = shownIn(text);

  test('every command shown gives the answer shown', async () => {
    let now = text;
    for (const block of shown.toReversed()) {
      const [program, ...args] = block.command;
      expect(program).toBe('fayplate');
      const { out, err } = await fayplate(args);
      const answer = asShown(out === '' ? err : out, block.lines);
      now = now.slice(0, block.from) + answer + now.slice(block.to);
    }
    if (refresh) writeFileSync(path, now);
    expect(readFileSync(path, 'utf8')).toBe(now);
  });

  test('the picture shown is the one the tool makes', async () => {
    for (const [, picture = '', command = ''] of text.matchAll(
      /!\[[^\]]*\]\(([^)]+\.svg)\)\s*\n<!-- made by: fayplate ([^>]+) -->/g,
    )) {
      const { files } = await fayplate(command.trim().split(' '));
      const made = files.get(picture);
      expect(made, `${command} writes ${picture}`).toBeDefined();
      if (refresh) writeFileSync(join(root, picture), made ?? '');
      expect(readFileSync(join(root, picture), 'utf8')).toBe(made);
    }
  });
});

test.each(documents)('every file that %s names is there', (name) => {
  const text = readFileSync(join(root, name), 'utf8');
  const paths = [...text.matchAll(/`((?:packages|apps|test|examples|\.github)\/[\w./-]+)`/g)].map((m) => m[1] ?? '');
  const links = [...text.matchAll(/\]\((?!https?:)([^)#]+)\)/g)].map((m) => join(dirname(name), m[1] ?? ''));
  expect([...paths, ...links].filter((p) => !existsSync(join(root, p)))).toEqual([]);
});

test('the reader of documents finds a command and its answer', () => {
  const [block, ...none] = shownIn('text\n```console lines=2\n$ fayplate check "a b.yaml"\none\ntwo\n…\n```\n');
  expect(none).toEqual([]);
  expect(block).toMatchObject({ command: ['fayplate', 'check', 'a b.yaml'], lines: 2, answer: 'one\ntwo\n…\n' });
  expect(asShown('one\ntwo  \nthree\n', 2)).toBe('one\ntwo\n…\n');
});
