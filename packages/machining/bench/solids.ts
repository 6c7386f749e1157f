import { stepSolid } from '../src/index.js';
import { plateOf, randomJob } from '../test/step/random-job.js';
import { passages, topologyOf } from '../test/step/topology.js';

/**
 * The solids of 500 random plates, beside a plain reader of their files: edges not used once each way, corners made
 * twice, and through passages by Euler's count against the plate's own. Run in the package's folder: `npm run bench`.
 * RUNS may be set.
 */
const runs = Number(process.env['RUNS'] ?? 500);
const shapes = new Map<string, number>();
let [solids, refused, open, twins, broken, miscounted] = [0, 0, 0, 0, 0, 0];
for (let seed = 1001; seed <= 1000 + runs; seed++) {
  const made = plateOf(randomJob(seed));
  const step = made === null ? null : stepSolid(made.plate);
  if (made === null || step === null || !step.ok) {
    refused++;
    continue;
  }
  solids++;
  shapes.set(made.plate.outline.shape, (shapes.get(made.plate.outline.shape) ?? 0) + 1);
  const t = topologyOf(step.text);
  open += t.open;
  twins += t.twins;
  broken += t.broken;
  const through =
    made.plate.holes.filter((h) => h.depth === null).length +
    made.plate.bores.filter((b) => b.side === 'through').length;
  if (passages(t) !== through) miscounted++;
}
console.log(`solids: ${solids} of ${runs} random plates (${[...shapes].map(([s, n]) => `${s} ${n}`).join(', ')})`);
console.log(`  ${refused} refused, since cuts break into each other or no plate can be made`);
console.log(`  open edges ${open}, corners made twice ${twins}, broken loops ${broken}, wrong passages ${miscounted}`);
process.exitCode = open + twins + broken + miscounted > 0 ? 1 : 0;
