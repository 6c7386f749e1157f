import { mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { answer } from '@fayplate/study';
import { afterAll, describe, expect, test } from 'vitest';
import { fayplate, root } from '../support/cli.js';
import { bare, change, sound } from './job.js';

const folder = mkdtempSync(join(tmpdir(), 'fayplate-media-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const examples = readdirSync(join(root, 'examples'), { withFileTypes: true }).flatMap((d) =>
  d.isDirectory() ? [d.name] : [],
);

interface Table {
  readonly by_hand: { readonly routes: readonly Route[] };
  readonly rows: readonly { readonly hole: string }[];
}
interface Route {
  readonly name: string;
  readonly plus_minus: number;
  readonly too_coarse_for: readonly string[];
  readonly holes: readonly string[];
}
interface Print {
  readonly punched: { readonly plus_minus: number; readonly by_read_out: readonly string[] };
}

const jsonOf = async <T>(line: readonly string[]): Promise<T> =>
  JSON.parse((await fayplate([...line, '--json'])).out) as T;

describe('the template and the table give the same ± for the same way of making', () => {
  test.each(examples)('%s', async (name) => {
    const job = `examples/${name}/job.yaml`;
    const table = await jsonOf<Partial<Table>>(['table', job]);
    // A part known by a seller's figures may leave no plate to draw, and two pieces have a table each: nothing to
    // compare here.
    if (table.by_hand === undefined) return;
    const print = await jsonOf<Print>(['print', job, '--out', join(folder, `${name}.pdf`)]);
    const punch = table.by_hand.routes.find((r) => r.name === 'paper template and punch');
    // Where it is too coarse for every hole the table does not offer it, and the template places all by read-out.
    if (punch === undefined) expect(print.punched.by_read_out.length).toBeGreaterThan(0);
    else {
      expect(print.punched.plus_minus).toBe(punch.plus_minus);
      expect([...print.punched.by_read_out].sort()).toEqual([...punch.too_coarse_for].sort());
    }
  });
  test('at least one example offers paper and punch, so that the two can be told apart', async () => {
    const offered = await Promise.all(
      examples.map(
        async (name) => (await jsonOf<Partial<Table>>(['table', `examples/${name}/job.yaml`])).by_hand?.routes ?? [],
      ),
    );
    expect(offered.flat().some((r) => r.name === 'paper template and punch')).toBe(true);
  });
});

describe('a table for a spreadsheet carries the verdict in its heading', () => {
  const headOf = async (job: string): Promise<string> => {
    const found = await answer(job, 'table', { trials: 200, csv: true }, bare);
    const [head = '', first = ''] = (found.instead ?? '').split('\r\n');
    // Every row has a cell under it, though nothing stands there.
    expect(first.endsWith(',')).toBe(true);
    return head;
  };
  test('Yes, No, and what is not settled', async () => {
    expect(await headOf(sound)).toMatch(/,"?Yes: The plate goes together/);
    expect(await headOf(change(['bore: { diameter: 40 }', 'bore: { diameter: 22 }']))).toMatch(
      /,"?No: the shaft of motor does not pass C1/,
    );
    expect(await headOf(change(['over M1 M3 = 176.01', 'over M1 M3 = 179.01']))).toMatch(
      /Not settled: readings .*6.* of motor\. Not yet: /,
    );
  });
});

test('the remedy for suspect readings runs as it is pasted', async () => {
  const job = change(['over M1 M3 = 176.01', 'over M1 M3 = 179.01']);
  const { json } = await answer(job, 'plate', { trials: 200 }, bare);
  const { requirements } = (json as { verdict: { requirements: readonly { id: string; cure: string | null }[] } })
    .verdict;
  const cure = requirements.find((r) => r.id === 'reading-suspect')?.cure ?? '';
  const flags = [...(/`(.*)`/.exec(cure)?.[1] ?? '').matchAll(/--set-aside ('[^']*'|\S+)/g)].map(([, word = '']) =>
    word.replaceAll("'", ''),
  );
  expect(flags.length).toBeGreaterThan(0);
  const again = await answer(job, 'plate', { trials: 200, setAside: flags }, bare);
  expect(again.error).toBeNull();
  const left = (again.json as { verdict: { requirements: readonly { id: string }[] } }).verdict.requirements;
  expect(left.map((r) => r.id)).not.toContain('reading-suspect');
});
