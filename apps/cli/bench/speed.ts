import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/**
 * How long whole processes take on the example, beside a Node that does nothing: medians of wall time and of processor
 * time (user and system, which a busy machine lengthens less), as ratios to bare Node, and the most memory held. One
 * run, the programs in turn, so that all meet the same machine. Run in apps/cli: `npm run bench`. RUNS may be set.
 */
const runs = Number(process.env['RUNS'] ?? 11);
const job = join(import.meta.dirname, '../../../../examples/lift-pump/job.yaml');
const fayplate = join(import.meta.dirname, '../../bin/fayplate.js');
const folder = mkdtempSync(join(tmpdir(), 'fayplate-speed-'));

const subjects: readonly { readonly name: string; readonly args: readonly string[]; readonly goal: number | null }[] = [
  { name: 'node -e 0', args: ['-e', '0'], goal: null },
  { name: 'fayplate --version', args: [fayplate, '--version'], goal: null },
  { name: 'fayplate check', args: [fayplate, 'check', job], goal: 2 },
  { name: 'fayplate locate', args: [fayplate, 'locate', job], goal: 2.2 },
  { name: 'fayplate packet', args: [fayplate, 'packet', job, '--out', join(folder, 'out')], goal: 10 },
];

// What a process used is known to itself only: it leaves its account as it goes.
const account = join(folder, 'account.json');
const preload = join(folder, 'account.cjs');
writeFileSync(
  preload,
  `process.on('exit',()=>require('fs').writeFileSync(${JSON.stringify(account)},JSON.stringify(process.resourceUsage())))`,
);

interface Taken {
  readonly wall: number;
  readonly processor: number;
  readonly mebibytes: number;
}

const take = (args: readonly string[]): Taken => {
  const start = performance.now();
  const { status, stderr } = spawnSync(process.execPath, ['--require', preload, ...args], {
    stdio: ['ignore', 'ignore', 'pipe'],
    encoding: 'utf8',
  });
  const wall = performance.now() - start;
  if (status !== 0) throw new Error(`${args.join(' ')} ended with ${status}\n${stderr}`);
  const used = JSON.parse(readFileSync(account, 'utf8')) as NodeJS.ResourceUsage;
  return { wall, processor: (used.userCPUTime + used.systemCPUTime) / 1000, mebibytes: used.maxRSS / 1024 };
};

const median = (values: readonly number[]): number =>
  [...values].sort((a, b) => a - b)[values.length >> 1] ?? Number.NaN;

try {
  const taken = subjects.map((): Taken[] => []);
  for (let run = 0; run < runs; run++) for (const [i, { args }] of subjects.entries()) taken[i]?.push(take(args));
  const of = (i: number, what: keyof Taken): number => median((taken[i] ?? []).map((t) => t[what]));
  console.log(`medians of ${runs} runs each, Node ${process.version}`);
  console.log(
    `${''.padEnd(20)}${'wall ms'.padStart(9)}${'ratio'.padStart(7)}${'processor ms'.padStart(14)}${'ratio'.padStart(7)}${'goal'.padStart(6)}${'peak MiB'.padStart(10)}`,
  );
  for (const [i, { name, goal }] of subjects.entries()) {
    const [wall, processor] = [of(i, 'wall'), of(i, 'processor')];
    console.log(
      name.padEnd(20) +
        wall.toFixed(0).padStart(9) +
        (wall / of(0, 'wall')).toFixed(2).padStart(7) +
        processor.toFixed(0).padStart(14) +
        (processor / of(0, 'processor')).toFixed(2).padStart(7) +
        (goal === null ? '' : `≤ ${goal}`).padStart(6) +
        Math.max(...(taken[i] ?? []).map((t) => t.mebibytes))
          .toFixed(0)
          .padStart(10),
    );
  }
} finally {
  rmSync(folder, { recursive: true, force: true });
}
