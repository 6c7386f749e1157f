import { spawn } from 'node:child_process';
import { mkdtempSync, readFileSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { randomFrom } from '@fayplate/core';
import { processIo } from '../src/process-io.js';

/**
 * Real kills: a process of its own writes packets into one folder, one upon another, and is ended by SIGKILL at a
 * moment drawn anew each time. Counted: what each kill left, files that are neither old nor new, and folders that the
 * next run does not bring to one packet. Run in apps/cli: `npm run bench`; SEED and KILLS (500) may be set.
 */
const seed = Number(process.env['SEED'] ?? 20_260_301);
const kills = Number(process.env['KILLS'] ?? 500);
const child = process.env['FAYPLATE_KILLED'];

const NAMES = Array.from({ length: 9 }, (_, i) => `side-${i}.cnc`);
/** Version n of a packet: every third has fewer files, so that some go and come. */
const packet = (n: number) =>
  NAMES.slice(0, n % 3 === 0 ? 6 : 9).map((name) => ({
    name,
    content: `%\n(FAYPLATE ${n})\n${`${n} ${name}\n`.repeat(4000)}(END ${n})\n`,
  }));

if (child !== undefined) {
  const io = processIo();
  process.stdout.write('ready\n');
  for (let n = Number(process.env['FROM'] ?? 0); ; n++) io.writePacket(child, packet(n), false);
}

const home = mkdtempSync(join(tmpdir(), 'fayplate-kills-'));
const folder = join(home, 'packet');
const random = randomFrom(seed);
let from = 0;
let [torn, mixed, left, unfinished, refused] = [0, 0, 0, 0, 0];

/** The version of a file that is whole; null where it is not. */
const versionOf = (name: string): number | null => {
  const text = readFileSync(join(folder, name), 'utf8');
  const n = Number(/^%\n\(FAYPLATE (\d+)\)/.exec(text)?.[1] ?? Number.NaN);
  return packet(n).some((f) => f.name === name && f.content === text) ? n : null;
};
const programs = (): readonly string[] => readdirSync(folder).filter((n) => n.endsWith('.cnc'));

for (let k = 0; k < kills; k++) {
  await new Promise<void>((done) => {
    const run = spawn(process.execPath, [process.argv[1] ?? ''], {
      env: { ...process.env, FAYPLATE_KILLED: folder, FROM: String(from) },
      stdio: ['ignore', 'pipe', 'inherit'],
    });
    run.stdout.once('data', () => setTimeout(() => run.kill('SIGKILL'), 60 * random.uniform()));
    run.on('exit', () => done());
  });
  if (!readdirSync(home).includes('packet')) continue;
  if (readdirSync(folder).some((n) => n.startsWith('.fayplate'))) left++;
  torn += programs().filter((n) => versionOf(n) === null).length;
  if (new Set(programs().map(versionOf)).size > 1) unfinished++;
  // The next run first ends or puts back what was begun, and then writes its own.
  from = Math.max(from, ...programs().map((n) => versionOf(n) ?? 0)) + 1;
  try {
    processIo().writePacket(folder, packet(from), false);
  } catch (error) {
    refused++;
    console.log(`  kill ${k}: ${String(error)}`);
    continue;
  }
  const wanted = [...packet(from).map((f) => f.name), 'packet.json'].toSorted();
  if (JSON.stringify(readdirSync(folder).toSorted()) !== JSON.stringify(wanted)) {
    mixed++;
    console.log(`  kill ${k}: ${readdirSync(folder).join(' ')}`);
  } else if (programs().some((n) => versionOf(n) !== from)) mixed++;
  from++;
}
rmSync(home, { recursive: true, force: true });
console.log(
  `kills: ${kills} of a process that writes (seed ${seed}); ${left} left names of our own, ${unfinished} a set ` +
    'between old and new',
);
console.log(
  `  files neither old nor new: ${torn}; folders that the next run did not bring to one packet: ${mixed}; next ` +
    `runs that refused: ${refused}`,
);
process.exit(torn + mixed + refused > 0 ? 1 : 0);
