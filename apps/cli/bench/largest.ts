import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { randomFrom } from '@fayplate/core';

/**
 * `check` on the largest job that may be read (packages/job/src/source/source.ts): 1,000 holes and 4,000 readings, as a
 * net of neighbours, as places on a milling table with distances across, and as the net with one reading in 500 written
 * down wrong. Wall and processor time (which a busy machine lengthens less) and the most memory held, beside the goal:
 * 20 s and 1 GB. Run in apps/cli: `npm run bench`.
 */
const [FEATURES, READINGS] = [1000, 4000];
const WIDE = Math.ceil(Math.sqrt(FEATURES));
const folder = mkdtempSync(join(tmpdir(), 'fayplate-largest-'));
const fayplate = join(import.meta.dirname, '../../bin/fayplate.js');

const jobOf = (kind: 'net' | 'places', wrong: number): string => {
  const random = randomFrom(4_000_018);
  const at = Array.from({ length: FEATURES }, (_, i) => ({
    x: (i % WIDE) * 20 + 2 * random.uniform(),
    y: Math.floor(i / WIDE) * 20 + 2 * random.uniform(),
  }));
  const lines: string[] = [];
  const read = (i: number, j: number): void => {
    const [a, b] = [at[i], at[j]];
    if (a === undefined || b === undefined || i === j || lines.length >= READINGS) return;
    const value = Math.hypot(a.x - b.x, a.y - b.y) + 0.025 * random.normal() + (random.uniform() < wrong ? 5 : 0);
    lines.push(`      - centres F${i} F${j} = ${value.toFixed(3)} by caliper`);
  };
  const place = ({ x, y }: { readonly x: number; readonly y: number }, i: number): void => {
    lines.push(
      `      - at F${i} = (${(x + 0.025 * random.normal()).toFixed(3)}, ${(y + 0.025 * random.normal()).toFixed(3)}) by caliper`,
    );
  };
  if (kind === 'places') at.forEach(place);
  for (let d = 1; lines.length < READINGS; d++)
    for (let i = 0; i < FEATURES; i++) {
      if (kind === 'places') read(i, (i + 37 * d) % FEATURES);
      else {
        if ((i % WIDE) + d < WIDE) read(i, i + d);
        read(i, i + d * WIDE);
        if (d === 1 && i % WIDE < WIDE - 1) read(i, i + WIDE + 1);
        if (d === 1 && i % WIDE > 0) read(i, i + WIDE - 1);
      }
    }
  const features = at.map((_, i) => `      F${i}: { kind: hole }`).join('\n');
  return `job: Largest\nunits: mm\ninstruments:\n  caliper: ± 0.05\nfaces:\n  A:\n    viewed: from outside\n    up: F0\n    features:\n${features}\n    readings:\n${lines.join('\n')}\n`;
};

const account = join(folder, 'account.cjs');
writeFileSync(
  account,
  "process.on('exit',()=>{const u=process.resourceUsage();require('fs').writeSync(2,`\\u0000${u.userCPUTime+u.systemCPUTime} ${u.maxRSS}`)})",
);

try {
  console.log(`check on ${FEATURES} features and ${READINGS} readings, Node ${process.version}; goal: 20 s, 1024 MiB`);
  console.log(
    `${''.padEnd(34)}${'wall s'.padStart(8)}${'processor s'.padStart(13)}${'peak MiB'.padStart(10)}  ends with`,
  );
  for (const [name, kind, wrong] of [
    ['net of neighbours', 'net', 0],
    ['places, with distances across', 'places', 0],
    ['net, one reading in 500 wrong', 'net', 0.002],
  ] as const) {
    const job = join(folder, 'job.yaml');
    writeFileSync(job, jobOf(kind, wrong));
    const start = performance.now();
    const { status, stderr } = spawnSync(process.execPath, ['--require', account, fayplate, 'check', job], {
      encoding: 'utf8',
      stdio: ['ignore', 'ignore', 'pipe'],
    });
    const wall = (performance.now() - start) / 1000;
    const [processor = 0, peak = 0] = (stderr.split('\0')[1] ?? '').split(' ').map(Number);
    console.log(
      name.padEnd(34) +
        wall.toFixed(1).padStart(8) +
        (processor / 1e6).toFixed(1).padStart(13) +
        (peak / 1024).toFixed(0).padStart(10) +
        `  ${status}`,
    );
  }
} finally {
  rmSync(folder, { recursive: true, force: true });
}
