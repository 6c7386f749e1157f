import { studyClean, studySlips } from '../test/studies/explaining.js';

const trials = process.argv.includes('--full') ? 1000 : Number(process.argv[2] ?? 100);
const share = (n: number, of: number): string =>
  `${((100 * n) / of).toFixed(1)} ± ` +
  `${((100 * Math.sqrt(Math.max(n, 1) * Math.max(1 - n / of, 1 / of))) / of).toFixed(1)} %`;
const line = (what: string, count: number, options: { least?: number; size?: number }, seed: number): void => {
  const s = studySlips(trials, seed, count, options);
  console.log(
    `${what}: ${s.trials} faces; named ${share(s.named, s.trials)} (goal ≥ ${count === 1 ? 98 : 80}); first or tied ` +
      `${share(s.firstOrTied, s.trials)} (goal ≥ 90 of one); only ` +
      `sound ones ${share(s.onlySound, s.trials)} (goal ≤ 1)` +
      (count === 1 ? '; ' : `, of them ${s.alone} where one reading alone explains all and none can tell; `) +
      `nothing said ${share(s.silent, s.trials)}; ${(s.lengths / s.trials).toFixed(2)} named` +
      (count === 1
        ? `, ${(s.lengths / s.ideal).toFixed(2)} ± ${s.ratioError.toFixed(2)} times an ideal list (goal ≤ 1.2)`
        : ''),
  );
  if (process.argv[3] === 'seeds') console.log('  missed:', s.seeds.slice(0, 12).join(' '));
};
line('one slip of 8 to 32 u/√redundancy', 1, {}, 71_000_003);
line('one slip of 1 mm', 1, { size: 1 }, 72_000_003);
line('two slips of 12 to 48 u/√redundancy', 2, { least: 12 }, 73_000_003);
const clean = studyClean(trials, 74_000_003);
console.log(
  `clean: called suspect ${share(clean.suspect, clean.trials)}, promised ` +
    `${((100 * clean.promised) / clean.trials).toFixed(1)} %`,
);
