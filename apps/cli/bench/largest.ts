import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { shapes } from './largest/shapes.js';

/**
 * `check` on the largest job that may be read (packages/job/src/source/source.ts): 1,000 holes and 4,000 readings,
 * taken in every way that makes a job of another shape. Wall and processor time (which a busy machine lengthens less)
 * and the most memory held, beside the goal: 20 s and 1 GB. Run in apps/cli: `npm run bench`; a word after it, as in
 * `node dist/bench/largest.mjs places`, takes only the shapes that it stands in.
 */
const LONGEST = 300_000;
const folder = mkdtempSync(join(tmpdir(), 'fayplate-largest-'));
const fayplate = join(import.meta.dirname, '../../bin/fayplate.js');
const only = process.argv[2] ?? '';

const account = join(folder, 'account.cjs');
writeFileSync(
  account,
  `process.on('exit', () => {
    const u = process.resourceUsage();
    require('fs').writeSync(2, \`\\u0000\${u.userCPUTime + u.systemCPUTime} \${u.maxRSS}\`);
  })`,
);

const figures = (name: string, wall: number, processor: number, peak: number, ends: string): string =>
  name.padEnd(46) +
  wall.toFixed(1).padStart(8) +
  processor.toFixed(1).padStart(13) +
  `${peak.toFixed(0).padStart(10)}  ${ends}`;

try {
  console.log(`check on 1,000 features and 4,000 readings, Node ${process.version}; goal: 20 s, 1024 MiB`);
  console.log(
    `${''.padEnd(46)}${'wall s'.padStart(8)}${'processor s'.padStart(13)}${'peak MiB'.padStart(10)}  ends with`,
  );
  for (const { name, job: text } of shapes) {
    if (!name.includes(only)) continue;
    const job = join(folder, 'job.yaml');
    writeFileSync(job, text());
    const start = performance.now();
    const { status, stdout, stderr } = spawnSync(process.execPath, ['--require', account, fayplate, 'check', job], {
      encoding: 'utf8',
      stdio: ['ignore', 'pipe', 'pipe'],
      timeout: LONGEST,
    });
    const wall = (performance.now() - start) / 1000;
    const [processor = 0, peak = 0] = (stderr.split('\0')[1] ?? '').split(' ').map(Number);
    const verdict = stdout.split('\n').find((line) => /^(Yes|No|Not yet)\b/.test(line)) ?? '';
    console.log(
      figures(
        name,
        wall,
        processor / 1e6,
        peak / 1024,
        status === null ? 'cut off' : `${status} ${verdict.slice(0, 60)}`,
      ),
    );
  }
} finally {
  rmSync(folder, { recursive: true, force: true });
}
