import { existsSync, mkdirSync, readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { fayplate, root } from '../support/cli.js';

/** `UPDATE_GOLDEN=1 npx vitest run golden` in this folder writes the present words into golden/; read the difference before it is kept. */
const refresh = process.env['UPDATE_GOLDEN'] === '1';
const commands = ['check', 'locate', 'layout', 'stack', 'plate', 'table', 'prove'];
const examples = readdirSync(join(root, 'examples'), { withFileTypes: true })
  .filter((d) => d.isDirectory())
  .map((d) => d.name);

/** What a person sees: the command, what goes to the screen, and the exit status. */
const seen = async (command: string, example: string): Promise<string> => {
  const line = `${command} examples/${example}/job.yaml`;
  const { code, out, err } = await fayplate(line.split(' '));
  return `$ fayplate ${line}\n${out}${err}[exit status ${code}]\n`;
};

describe.each(examples)('the words of %s', (example) => {
  test.each(commands)('%s', async (command) => {
    const path = join(root, 'test/journeys/golden', example, `${command}.txt`);
    const words = await seen(command, example);
    if (refresh) {
      mkdirSync(dirname(path), { recursive: true });
      writeFileSync(path, words);
    }
    expect(existsSync(path), `${path}: run UPDATE_GOLDEN=1 npx vitest run golden`).toBe(true);
    expect(words).toBe(readFileSync(path, 'utf8'));
  });
});

test('every golden file belongs to an example and a command', () => {
  const files = readdirSync(join(root, 'test/journeys/golden'), { recursive: true, encoding: 'utf8' }).filter((f) =>
    f.endsWith('.txt'),
  );
  expect(files.map((f) => f.replaceAll('\\', '/')).sort()).toEqual(
    examples.flatMap((e) => commands.map((c) => `${e}/${c}.txt`)).sort(),
  );
});
