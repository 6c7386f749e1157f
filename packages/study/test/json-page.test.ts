import { readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { type JobCommand, answer } from '../src/index.js';
import { root, world } from './support.js';

/**
 * JSON.md is the page that programs are written by. The documents of every example and public case are made
 * here and their fields compared with its rows, both ways. `UPDATE_DOCS=1` writes the fields found into the page, with
 * a `?` for what is yet to be said of a new place.
 */
const refresh = process.env['UPDATE_DOCS'] === '1';
const pagePath = join(import.meta.dirname, '../JSON.md');

const jobs = ['examples', 'test/cases'].flatMap((folder) =>
  readdirSync(join(root, folder), { recursive: true, encoding: 'utf8' })
    .filter((f) => f.endsWith('.yaml'))
    .map((f) => join(root, folder, f)),
);
const commands = ['check', 'locate', 'layout', 'stack', 'plate', 'table', 'prove', 'print', 'packet'] as const;
/** Printed once: their documents do not depend on what is in the job. */
const onlyOfOne: readonly string[] = ['print', 'packet'];

/** Objects whose keys are names of the job's own. */
const named = new Set([
  'faces',
  'features',
  'moves',
  'reduces',
  'goes_on',
  'stops',
  'unchecked',
  'enters',
  'zeros',
  'serves',
]);
/** Shapes that several documents share, by the key that they stand at. */
const shared = new Set(['verdict', 'standard', 'old', 'centres']);

type Shapes = Map<string, Set<string>>;

/** Notes the fields of every object in a document under its place: `faces.*.fit`. */
const noteFields = (shapes: Shapes, place: string, value: unknown, key: string): void => {
  if (Array.isArray(value)) {
    for (const v of value) noteFields(shapes, `${place}[]`, v, '');
    return;
  }
  if (value === null || typeof value !== 'object') return;
  const isNamed = named.has(key);
  const own = shapes.get(place) ?? new Set<string>();
  if (!isNamed) shapes.set(place, own);
  for (const [field, v] of Object.entries(value)) {
    if (!isNamed) own.add(field);
    const name = isNamed ? '*' : field;
    // Layouts of the next level have the shape of the one that they are of.
    if (name === 'finer') continue;
    // Each piece of a plate has a document of the same shape.
    if (name === 'pieces' && v !== null) {
      for (const piece of Object.values(v as object)) noteFields(shapes, place, piece, '');
      continue;
    }
    const below = place.slice(place.indexOf(': ') + 2);
    if (shared.has(name)) noteFields(shapes, `shared: ${name}`, v, '');
    else noteFields(shapes, below === '' ? `${place}${name}` : `${place}.${name}`, v, isNamed ? '' : field);
  }
};

interface Row {
  readonly place: string;
  readonly fields: readonly string[];
  readonly means: string;
}

const rowOf = ({ place, fields, means }: Row): string =>
  `| ${place === '' ? 'the document' : `\`${place}\``} | ${fields.map((f) => `\`${f}\``).join(', ')} | ${means} |`;

/** The rows of each section of the page, by section and place. */
const rowsOf = (page: string): Map<string, Row> => {
  const rows = new Map<string, Row>();
  for (const section of page.split('\n## ').slice(1)) {
    const [heading = '', ...lines] = section.split('\n');
    for (const line of lines.filter((l) => l.startsWith('| ') && !l.startsWith('| place'))) {
      const [at = '', fields = '', means = ''] = line.split(' | ').map((c) => c.replaceAll(/^\||\|$/g, '').trim());
      const place = at === 'the document' ? '' : at.replaceAll('`', '');
      rows.set(`${heading.trim()}: ${place}`, { place, fields: fields.replaceAll('`', '').split(', '), means });
    }
  }
  return rows;
};

const found: Shapes = new Map();
const note = async (text: string, command: JobCommand): Promise<void> => {
  const { json, error, faults } = await answer(text, command, { trials: 10 }, world);
  if (error === null && faults.length === 0) noteFields(found, `${command}: `, json, '');
};

beforeAll(async () => {
  for (const job of jobs)
    for (const command of commands)
      if (!onlyOfOne.includes(command) || job.endsWith(join('lift-pump', 'job.yaml')))
        await note(readFileSync(job, 'utf8'), command);
});

const section = (heading: string, rows: ReadonlyMap<string, Row>): string =>
  [...found]
    .filter(([at]) => at.startsWith(`${heading}: `))
    .map(([at, fields]) =>
      rowOf({ place: at.slice(heading.length + 2), fields: [...fields], means: rows.get(at)?.means ?? '?' }),
    )
    .join('\n');

describe('the page of the JSON documents', () => {
  test('has every field that a document has, and no other', () => {
    const page = readFileSync(pagePath, 'utf8');
    const rows = rowsOf(page);
    if (refresh) {
      const tables = ['shared', ...commands].map(
        (heading) => `\n## ${heading}\n\n| place | fields | what it is |\n|---|---|---|\n${section(heading, rows)}\n`,
      );
      writeFileSync(pagePath, page.slice(0, page.indexOf('\n## shared')) + tables.join(''));
    }
    const said = rowsOf(readFileSync(pagePath, 'utf8'));
    const sorted = (of: Iterable<readonly [string, Iterable<string>]>) =>
      Object.fromEntries([...of].map(([at, fields]) => [at, [...fields].toSorted()]));
    expect(sorted([...said].map(([at, row]) => [at, row.fields] as const))).toEqual(sorted(found));
    expect(said.size).toBeGreaterThan(90);
  });

  test('says what each is', () => {
    for (const [at, { means }] of rowsOf(readFileSync(pagePath, 'utf8'))) expect([at, means]).not.toEqual([at, '?']);
  });

  test('every document begins alike', () => {
    for (const command of commands)
      expect([...(found.get(`${command}: `) ?? [])].slice(0, 4)).toEqual(['fayplate', 'job', 'fingerprint', 'command']);
  });
});
