import { studyAbsurd } from '../test/studies/explaining.js';

const s = studyAbsurd(process.argv.includes('--full') ? 1000 : Number(process.argv[2] ?? 100), 81_000_001);
const error = (100 * Math.sqrt((s.named * (s.trials - s.named + 1)) / s.trials)) / s.trials;
console.log(
  `one absurd reading among checked ones: ${s.trials} faces; named ${((100 * s.named) / s.trials).toFixed(1)} ± ` +
    `${error.toFixed(1)} % (goal ≥ 95); ` +
    `no shape settled on ${s.unsettled} (goal 0); longest ${s.longest.toFixed(0)} ms of processor time`,
);
if (process.argv[3] === 'seeds') console.log(s.seeds.join('\n'));
