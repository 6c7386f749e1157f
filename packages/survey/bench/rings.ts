import { studyRings } from '../test/studies/rings.js';

// `--full`: 20,400 rings in all; else a tenth of them.
const rings = process.argv.includes('--full') ? 1700 : Number(process.argv[2] ?? 170);
const kinds = ['right', 'slips', 'some', 'none'] as const;
const asked = kinds.filter((c) => process.argv.length < 4 || process.argv.slice(3).includes(c));
for (const [clocks, across] of asked.flatMap((c) => [0, 1, 2].map((a) => [c, a] as const))) {
  const before = performance.now();
  const s = studyRings(rings, 61_000_001 + across, across, clocks);
  const error = (n: number): string => ((100 * Math.sqrt(Math.max(n, 1) * (1 - n / rings))) / rings).toFixed(2);
  const share = (n: number): string => `${((100 * n) / rings).toFixed(2)} % ± ${error(n)}`;
  console.log(
    `Rings read without error, clocks ${clocks}, ${across} across: ${rings} rings; wrong without a word ` +
      `${s.silentlyWrong} (goal 0); ` +
      `undecided ${share(s.undecided)} (goal ≤ 0.5 %); one who knows how the clocks were drawn: wrong ` +
      (`${s.ideal.silentlyWrong}, undecided ${share(s.ideal.undecided)}; ` +
        `${((performance.now() - before) / rings).toFixed(1)} ms each`),
  );
  if (s.silentlyWrong > 0) console.log('  wrong:', s.seeds.wrong.join(' '));
  if (s.undecided > 0) console.log('  undecided:', s.seeds.undecided.join(' '));
}
