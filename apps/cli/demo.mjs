// The whole example, as a person would run it: words on the terminal, the packet in out/.
import { join } from 'node:path';
import { spawnSync } from 'node:child_process';

const root = join(import.meta.dirname, '../..');
const fayplate = join(import.meta.dirname, 'bin/fayplate.js');
const job = 'examples/lift-pump/job.yaml';
const steps = [
  ['check', job],
  ['locate', job],
  ['layout', job],
  ['stack', job],
  ['plate', job],
  ['table', job],
  ['packet', job, '--out', 'out'],
  ['page', job, '--out', 'out/fayplate.html'],
];

for (const step of steps) {
  console.log(`\n$ fayplate ${step.join(' ')}\n`);
  const { status } = spawnSync(process.execPath, [fayplate, ...step], {
    cwd: root,
    stdio: ['ignore', 'inherit', 'inherit'],
  });
  if (status !== 0) {
    console.error(`The demo stopped: fayplate ${step[0]} ended with status ${status}.`);
    process.exit(status ?? 3);
  }
}
