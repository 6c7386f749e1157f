import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { faultLines, readJob } from '../src/index.js';

const folder = join(import.meta.dirname, '../../../test/cases');
const files = readdirSync(folder).filter((f) => f.endsWith('.yaml'));

test('there are ten', () => expect(files).toHaveLength(10));

/** Independently solved jobs: the reader must take every one of them. */
test.each(files)('%s reads without a fault', (file) => {
  const text = readFileSync(join(folder, file), 'utf8');
  const read = readJob(text);
  expect(read.ok ? [] : faultLines(text, read.faults)).toEqual([]);
});
