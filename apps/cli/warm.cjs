// Runs the example once and keeps what V8 made of each chunk on the way (see bin/load.js): Node keeps it itself as the process ends, or we do.
const { mkdtempSync, rmSync, writeFileSync } = require('node:fs');
const os = require('node:os');
const { join } = require('node:path');
const { folder, load, scripts } = require('./bin/load.js');

const job = join(__dirname, '../../examples/lift-pump/job.yaml');
const out = mkdtempSync(join(os.tmpdir(), 'fayplate-warm-'));
const kept = new Set();

/** Soon after a command, before V8 forgets the code of what ran only once. */
const keep = () => {
  for (const [name, script] of scripts) {
    if (kept.has(name)) continue;
    kept.add(name);
    writeFileSync(join(folder, `${name}.code`), script.createCachedData());
  }
};

// On one core all is printed on this thread, where the code that V8 made of it can be kept.
os.availableParallelism = () => 1;

const warm = async () => {
  const { main } = load('fayplate.js');
  for (const argv of [
    ['locate', job],
    ['check', job],
    ['plate', job, '--quiet'],
    ['packet', job, '--out', out],
  ]) {
    await main(argv);
    if (process.exitCode !== 0) throw new Error(`fayplate ${argv[0]} ended with ${process.exitCode}`);
    if (argv[0] !== 'locate') keep();
  }
};

void warm().finally(() => rmSync(out, { recursive: true, force: true }));
