import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/**
 * How long whole processes take on every example, beside a Node that does nothing: medians of wall time and of
 * processor time (user and system, which a busy machine lengthens less), as ratios to bare Node, and the most memory
 * held. One run, the programs in turn, so that all meet the same machine. Run in apps/cli: `npm run bench`. RUNS may be
 * set;
 * `--full` takes 11. `check`, `locate` and `layout` answer for the whole job too, which takes its plate.
 */
const runs = Number(process.env['RUNS'] ?? (process.argv.includes('--full') ? 11 : 3));
const examples = join(import.meta.dirname, '../../../../examples');
const fayplate = join(import.meta.dirname, '../../bin/fayplate.js');
const folder = mkdtempSync(join(tmpdir(), 'fayplate-speed-'));

/** Whole-process ratios to bare Node that are aimed at. */
const goals = { check: 2, locate: 2.2, layout: 3, plate: 4, packet: 9 } as const;
const commands = Object.keys(goals) as readonly (keyof typeof goals)[];

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
  // 1 is an answer too: not every example is a plate that may be cut.
  if (status !== 0 && status !== 1) throw new Error(`${args.join(' ')} ended with ${status}\n${stderr}`);
  const used = JSON.parse(readFileSync(account, 'utf8')) as NodeJS.ResourceUsage;
  return { wall, processor: (used.userCPUTime + used.systemCPUTime) / 1000, mebibytes: used.maxRSS / 1024 };
};

const median = (values: readonly number[]): number =>
  [...values].sort((a, b) => a - b)[values.length >> 1] ?? Number.NaN;

/** Medians of each subject, run in turn; the first is bare Node. */
const medians = (subjects: readonly (readonly string[])[]): readonly Taken[] => {
  const taken = subjects.map((): Taken[] => []);
  for (let run = 0; run < runs; run += 1) for (const [i, args] of subjects.entries()) taken[i]?.push(take(args));
  return taken.map((t) => ({
    wall: median(t.map((r) => r.wall)),
    processor: median(t.map((r) => r.processor)),
    mebibytes: Math.max(...t.map((r) => r.mebibytes)),
  }));
};

const ratio = (a: number, b: number): string => (a / b).toFixed(2).padStart(7);
const worst = new Map<keyof typeof goals, number>();
try {
  console.log(
    `medians of ${runs} runs each, Node ${process.version}; wall and processor ms with their ratios to bare Node`,
  );
  for (const example of readdirSync(examples).filter((e) => existsSync(join(examples, e, 'job.yaml')))) {
    const job = join(examples, example, 'job.yaml');
    const [bare, version, ...rest] = medians([
      ['-e', '0'],
      [fayplate, '--version'],
      ...commands.map((c) => [fayplate, c, job, ...(c === 'packet' ? ['--out', join(folder, 'out')] : [])]),
    ]);
    if (bare === undefined || version === undefined) continue;
    console.log(
      `\n${example}: node -e 0 ${bare.wall.toFixed(0)} wall, ${bare.processor.toFixed(0)} processor; ` +
        `--version${ratio(version.wall, bare.wall)}`,
    );
    for (const [i, command] of commands.entries()) {
      const t = rest[i];
      if (t === undefined) continue;
      worst.set(command, Math.max(worst.get(command) ?? 0, t.wall / bare.wall));
      console.log(
        `  ${command.padEnd(8)}${t.wall.toFixed(0).padStart(7)}${ratio(t.wall, bare.wall)}` +
          `${t.processor.toFixed(0).padStart(9)}${ratio(t.processor, bare.processor)}` +
          `${t.mebibytes.toFixed(0).padStart(7)} MiB`,
      );
    }
  }
  console.log('\nworst ratio of wall times over the examples, and the goal');
  for (const command of commands)
    console.log(
      `  ${command.padEnd(8)}${(worst.get(command) ?? Number.NaN).toFixed(2).padStart(7)}   ≤ ${goals[command]}`,
    );
} finally {
  rmSync(folder, { recursive: true, force: true });
}
