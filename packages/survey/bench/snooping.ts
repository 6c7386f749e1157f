import { type Rate, alarms, flagged, planted } from '../test/studies/snooping.js';

const TRIALS = 2000;
const line = (what: string, { trials, share }: Rate, asked: string, expected = share): void => {
  const error = Math.sqrt((expected * (1 - expected)) / trials);
  console.log(`${what.padEnd(66)} ${(100 * share).toFixed(2).padStart(7)} % ± ${(100 * error).toFixed(2)}   ${asked}`);
};

console.log(`\nFinding the misread: ${TRIALS} simulated jobs a line (ten studs and a spigot, every pair read)`);
const one = planted(TRIALS, 1_000_000, 1, 8);
line('one error of 8 σ, redundancy ≥ 0.5: named', one.named, 'asked: at least 95 %');
line('                                    named and nothing else', one.exact, '');
const two = planted(TRIALS, 2_000_000, 2, 12);
line('two errors of 12 σ: both named', two.named, 'asked: at least 85 %');
line('                    both named and nothing else', two.exact, '');
line('an error of 4.94 σ/√r: its own |w| above 3.29', flagged(TRIALS, 3_000_000, 4.94), 'theory: 95 %', 0.95);
const clean = alarms(TRIALS, 4_000_000);
line('no error: alarms per reading', clean.perReading, 'theory: 0.1 %', 0.001);
line(
  'no error: jobs with an alarm',
  clean.perJob,
  `theory, were the readings' alarms independent: ` +
    `${(100 * (1 - 0.999 ** (clean.perReading.trials / TRIALS))).toFixed(2)} %`,
);
