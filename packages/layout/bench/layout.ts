import { coarseSizes } from './tables/coarse.js';
import { composed } from './tables/composed.js';
import { diameters } from './tables/diameters.js';
import { divisions } from './tables/divisions.js';
import { misfits } from './tables/misfits.js';
import { moved } from './tables/moved.js';

/** How well layouts are told, over seeded simulations. Arguments: faces a row (10,000), seed, tables (12345). */
const [, , runs = '10000', seed = '20264', tables = '123456'] = process.argv;
const run = { runs: Number(runs), seed: Number(seed) };

console.log(
  `Layouts told from simulated readings: ${run.runs} faces a row, seed ${run.seed}; shares ± one standard error. Every reading is a distance between centres with an independent normal error.`,
);
if (tables.includes('1')) diameters(run);
if (tables.includes('2')) divisions(run);
if (tables.includes('3')) misfits(run);
if (tables.includes('4')) coarseSizes(run);
if (tables.includes('5')) composed(run);
if (tables.includes('6')) moved(run);
