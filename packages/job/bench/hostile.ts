import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { readJob } from '../src/index.js';
import { large } from '../test/hostile/large.js';
import { mutated } from '../test/mutate.js';
import { wrongs } from '../test/sound.js';

/**
 * 20,000 changed files and the large hostile ones, each read once: how many read, how long the slowest took (processor
 * time, so that a busy machine does not count), whether any answer was unsound. Run in the package's folder: `npm run
 * bench`. SEED and RUNS may be set.
 */
const seed = Number(process.env['SEED'] ?? 20_260_103);
const runs = Number(process.env['RUNS'] ?? 20_000);
const folder = 'test';
const text = (file: string): string => readFileSync(join(folder, file), 'utf8');
const texts = [
  ...['../../../test/cases', 'hostile'].flatMap((f) =>
    readdirSync(join(folder, f))
      .filter((n) => n.endsWith('.yaml'))
      .map((n) => text(join(f, n))),
  ),
  text('contract.yaml'),
];

const timed = (t: string): { readonly ms: number; readonly ok: boolean; readonly unsound: readonly string[] } => {
  const start = process.cpuUsage();
  const read = readJob(t);
  const { user, system } = process.cpuUsage(start);
  const ms = (user + system) / 1000;
  return { ms, ok: read.ok, unsound: wrongs(t, read) };
};

const times: number[] = [];
let ok = 0;
const unsound: string[] = [];
fc.assert(
  fc.property(mutated(texts), (t) => {
    const r = timed(t);
    times.push(r.ms);
    if (r.ok) ok++;
    unsound.push(...r.unsound);
  }),
  { numRuns: runs, seed },
);
times.sort((a, b) => a - b);
const at = (share: number): string =>
  `${(times[Math.min(times.length - 1, Math.floor(share * times.length))] ?? 0).toFixed(1)} ms`;
console.log(
  `changed files: ${times.length} (seed ${seed}), ${ok} read, ` +
    `${times.length - ok} refused, ${unsound.length} unsound answers`,
);
console.log(`  median ${at(0.5)}, 99 in 100 within ${at(0.99)}, slowest ${at(1)}`);

console.log('large hostile files, slowest first:');
const rows = Object.entries(large(1)).map(([name, make]) => {
  const t = make();
  const r = timed(t);
  unsound.push(...r.unsound);
  return { name, kib: t.length / 1024, ms: r.ms, ok: r.ok };
});
for (const { name, kib, ms, ok } of rows.sort((a, b) => b.ms - a.ms).slice(0, 12))
  console.log(
    `  ${ms.toFixed(0).padStart(6)} ms  ${kib.toFixed(0).padStart(5)} KiB  ${ok ? 'reads  ' : 'refused'}  ${name}`,
  );
console.log(`  ${rows.length} in all, ${rows.filter((r) => r.ms > 2000).length} over 2 s`);
for (const u of unsound.slice(0, 10)) console.log(`unsound: ${u}`);
process.exitCode = unsound.length > 0 ? 1 : 0;
