import { coarseSizes } from './tables/coarse.js';
import { composed } from './tables/composed.js';
import { diameters } from './tables/diameters.js';
import { divisions } from './tables/divisions.js';
import { misfits } from './tables/misfits.js';
import { moved } from './tables/moved.js';

/**
 * How well layouts are told, over seeded simulations. `--full`: 10,000 faces a row in place of 1,000. Other arguments:
 * faces a row, seed, tables (123456).
 */
const given = process.argv.slice(2);
const [runs = given.includes('--full') ? '10000' : '1000', seed = '20264', tables = '123456'] = given.filter(
  (a) => a !== '--full',
);
const run = { runs: Number(runs), seed: Number(seed) };

console.log(
  `Layouts told from simulated readings: ${run.runs} faces a row, seed ${run.seed}; shares ± one standard error. ` +
    'Every reading is a distance between centres with an independent normal error.',
);
if (tables.includes('1')) diameters(run);
if (tables.includes('2')) divisions(run);
if (tables.includes('3')) misfits(run);
if (tables.includes('4')) coarseSizes(run);
if (tables.includes('5')) composed(run);
if (tables.includes('6')) moved(run);
