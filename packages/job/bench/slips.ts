import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { type FaultCode, readJob } from '../src/index.js';
import { misread } from '../test/misread.js';
import { misreadMore } from '../test/misread-more.js';
import { slipped } from '../test/slip.js';

/**
 * 20,000 jobs with one to three slips in their values: how many are refused, how many read, and of those how many
 * numbers a second reader of the same text has otherwise. Run in the package's folder: `npm run bench`. SEED and RUNS
 * may be set.
 */
const seed = Number(process.env['SEED'] ?? 20_260_104);
const runs = Number(process.env['RUNS'] ?? 20_000);
const texts = [
  ...readdirSync('../../test/cases')
    .filter((n) => n.endsWith('.yaml'))
    .map((n) => readFileSync(join('../../test/cases', n), 'utf8')),
  readFileSync('test/contract.yaml', 'utf8'),
];
let [read, warned] = [0, 0];
const wrong: string[] = [];
const codes = new Map<FaultCode, number>();
fc.assert(
  fc.property(slipped(texts), (t) => {
    const answer = readJob(t);
    if (!answer.ok) {
      for (const code of new Set(answer.faults.map((f) => f.code))) codes.set(code, (codes.get(code) ?? 0) + 1);
      return;
    }
    read++;
    if (answer.warnings.length > 0) warned++;
    wrong.push(...misread(t, answer.job), ...misreadMore(t, answer.job));
  }),
  { numRuns: runs, seed },
);
console.log(`slips: ${runs} jobs (seed ${seed}), ${read} read (${warned} with a warning), ${runs - read} refused`);
console.log(
  `  refused for: ${[...codes]
    .sort((a, b) => b[1] - a[1])
    .map(([c, n]) => `${c} ${n}`)
    .join(', ')}`,
);
console.log(`  numbers that a second reader has otherwise: ${wrong.length}`);
for (const w of wrong.slice(0, 10)) console.log(`  ${w}`);
process.exitCode = wrong.length > 0 ? 1 : 0;
