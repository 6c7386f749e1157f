import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { fingerprintOf, readJob } from '../src/index.js';
import { fnv1a64 } from '../src/fingerprint.js';

const text = readFileSync(join(import.meta.dirname, '../../../examples/three-to-four/job.yaml'), 'utf8');
const mark = (job: string): string => {
  const read = readJob(job);
  if (!read.ok) throw new Error(JSON.stringify(read.faults[0]));
  return fingerprintOf(read.job);
};
const changed = (from: string | RegExp, to: string): string => {
  const now = text.replace(from, to);
  if (now === text) throw new Error(`nothing changed: ${from}`);
  return now;
};

// Test vectors of the IETF draft on FNV (draft-eastlake-fnv, appendix C), from memory.
test.each([
  ['', 0xcbf29ce484222325n],
  ['a', 0xaf63dc4c8601ec8cn],
  ['foobar', 0x85944171f73967e8n],
])('the hash of %j', (given, hash) => expect(fnv1a64(given)).toBe(hash));

describe('a fingerprint', () => {
  const own = mark(text);

  test('is eight letters that nobody takes for others', () =>
    expect(own).toMatch(/^[0-9A-HJKMNP-TV-Z]{4}-[0-9A-HJKMNP-TV-Z]{4}$/));

  test.each([
    ['a remark', changed('# its centre is (0, 0)', '# quite another remark')],
    ['all remarks', text.replace(/#.*$/gm, '')],
    ['blanks', changed('over F1 F2 = 75.91 by caliper', 'over   F1  F2 =  75.91   by caliper')],
    ['a size with its unit', changed('thickness: 10', 'thickness: 10 mm')],
    ['the same length in inches', changed('thickness: 10', 'thickness: 0.3937007874015748 in')],
    ['the name of the job', changed('job: Barn fan on a new post', 'job: Fan')],
    [
      'a reading that is set aside',
      changed('      - over F1 F2', '      - aside over F1 F3 = 90 by caliper\n      - over F1 F2'),
    ],
    ['paper', `${text}print: { paper: A3 }\n`],
    [
      'what is measured of the drilled plate',
      `${text}drilled:\n  so far: [H1, H2]\n  readings: [over H1 H2 = 76 by caliper]\n`,
    ],
  ])('is the same with %s', (_, job) => expect(mark(job)).toBe(own));

  test.each([
    ['a reading', changed('over F1 F2 = 75.91', 'over F1 F2 = 75.92')],
    ['an instrument', changed('caliper: ± 0.04', 'caliper: ± 0.05')],
    ['a thickness', changed('thickness: 10', 'thickness: 10.01')],
    ['a treatment', changed('thread: M6', 'thread: M5')],
    ['a clocking', changed('45 deg', '44.9 deg')],
  ])('is another with %s changed', (_, job) => expect(mark(job)).not.toBe(own));
});
