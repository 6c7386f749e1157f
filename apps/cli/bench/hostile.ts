import { appendFileSync, readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { slipped } from '../test/hostile/mutate.js';
import { wrongWith } from '../test/hostile/world.js';
import { go } from '../test/support/go.js';

/**
 * Jobs with slips in them, in process: 2,000 that still read are solved by one command or another and 200 are taken to
 * a packet. Counted: exit statuses, the slowest (processor time), and everything that `wrongWith` objects to. Run in
 * apps/cli: `npm run bench`; SEED, SOLVED and PACKETS may be set. The job under way is kept in dist/hostile-last.yaml,
 * the ones that went wrong in dist/hostile-wrong.txt.
 */
const seed = Number(process.env['SEED'] ?? 20_260_201);
const goals = { solved: Number(process.env['SOLVED'] ?? 2000), packets: Number(process.env['PACKETS'] ?? 200) };
const root = join(import.meta.dirname, '../../../..');
const dist = join(import.meta.dirname, '..');
const text = (path: string): string => readFileSync(join(root, path), 'utf8');
const jobs = [
  ...readdirSync(join(root, 'examples'), { withFileTypes: true })
    .filter((d) => d.isDirectory())
    .map((d) => text(`examples/${d.name}/job.yaml`)),
  ...readdirSync(join(root, 'packages/job/test/cases')).map((n) => text(`packages/job/test/cases/${n}`)),
  text('packages/job/test/contract.yaml'),
];
const withPlate = jobs.filter((j) => /^plate:/m.test(j));
const commands = ['check', 'locate', 'layout', 'stack', 'plate', 'table', 'prove', 'print'];
const wrong = join(dist, 'hostile-wrong.txt');
writeFileSync(wrong, '');

interface Tally {
  readonly name: string;
  readonly codes: Map<number, number>;
  readonly times: number[];
  refusedAtReading: number;
  wrongs: number;
}

const one = async (tally: Tally, args: readonly string[], job: string): Promise<boolean> => {
  writeFileSync(join(dist, 'hostile-last.yaml'), job);
  const went = await go(args, { 'job.yaml': job });
  if (went.code === 2 && went.err.includes('nothing was worked out')) {
    tally.refusedAtReading++;
    return false;
  }
  tally.codes.set(went.code, (tally.codes.get(went.code) ?? 0) + 1);
  tally.times.push(went.ms);
  const words = [
    ...wrongWith(went, args[0] === 'print' ? '.' : 'out'),
    ...(went.ms > 2000 ? [`${went.ms.toFixed(0)} ms`] : []),
  ];
  if (words.length > 0) {
    tally.wrongs++;
    appendFileSync(wrong, `##### ${args.join(' ')}\n${words.map((w) => `##! ${w}`).join('\n')}\n${job}\n`);
  }
  return true;
};

const many = async (
  name: string,
  goal: number,
  sources: readonly string[],
  argsOf: (n: number) => readonly string[],
  counts: (t: Tally) => number,
): Promise<Tally> => {
  const tally: Tally = { name, codes: new Map(), times: [], refusedAtReading: 0, wrongs: 0 };
  // One seed a job, so that any of them can be made again by itself.
  for (let n = 0; counts(tally) < goal && n < 60 * goal; n++) {
    const [job = ''] = fc.sample(slipped(sources), { seed: seed + n, numRuns: 1 });
    await one(tally, argsOf(n), job);
  }
  return tally;
};

const say = ({ name, codes, times, refusedAtReading, wrongs }: Tally): void => {
  const sorted = [...times].sort((a, b) => a - b);
  const at = (share: number): string =>
    `${(sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? 0).toFixed(0)} ms`;
  console.log(
    `${name}: ${times.length} worked on (${refusedAtReading} more refused at reading), exit ${[...codes]
      .sort((a, b) => a[0] - b[0])
      .map(([c, n]) => `${c}: ${n}`)
      .join(', ')}`,
  );
  console.log(
    `  processor time: median ${at(0.5)}, 99 in 100 within ${at(0.99)}, slowest ${at(1)}; ${wrongs} went wrong`,
  );
};

const solved = await many(
  'solved',
  goals.solved,
  jobs,
  (n) => [
    commands[n % commands.length] ?? 'check',
    'job.yaml',
    ...(n % 3 === 0 ? ['--json'] : []),
    ...(commands[n % commands.length] === 'print' ? ['--out', './x.pdf'] : []),
  ],
  (t) => t.times.length,
);
say(solved);
const packets = await many(
  'taken to a packet',
  goals.packets,
  withPlate,
  () => ['packet', 'job.yaml', '--out', 'out'],
  (t) => (t.codes.get(0) ?? 0) + (t.codes.get(1) ?? 0),
);
say(packets);
process.exitCode = solved.wrongs + packets.wrongs > 0 ? 1 : 0;
