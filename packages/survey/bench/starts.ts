/**
 * Starts from anything: shops of 3 to 60 holes, found without being told; χ² of the shape settled on, beside that
 * from a start at the truth. Arguments: first and last seed, `fixed` (readings allow one shape) or `rigid` (they only
 * hold it fast where it is), and what the clocks are: `none`, `loose` (up to 40° off), `right`; all kinds in turn where
 * not said.
 */
import { settle } from '../src/settle.js';
import { startPositions } from '../src/start/start.js';
import { type Clocks, shop } from '../test/start/shops.js';

const [first, last] = [Number(process.argv[2] ?? 1), Number(process.argv[3] ?? 1000)];
const onlyRigid = process.argv[4] === 'rigid';
const clocks = process.argv[5] as Clocks | undefined;
const times: number[] = [];
let bad = 0;
for (let seed = first; seed <= last; seed++) {
  const s = shop(seed, { onlyRigid, ...(clocks === undefined ? {} : { clocks }) });
  const truth = settle(s.network, [{ values: s.truth, from: 'the truth' }]).adjustment.chi2;
  const before = process.cpuUsage().user;
  const { adjustment } = settle(s.network, startPositions(s.network));
  times.push((process.cpuUsage().user - before) / 1e3);
  const end = adjustment.chi2;
  if (adjustment.stopped.converged && end <= truth + 1e-5 * (1 + truth)) continue;
  bad++;
  console.log(
    `  seed ${seed}: ${s.family}, ${s.network.unknowns.features.size} features; χ² ${end.toFixed(2)}, from the ` +
      `truth ${truth.toFixed(2)}`,
  );
}
times.sort((a, b) => a - b);
const at = (share: number): string => `${Math.round(times[Math.floor(share * (times.length - 1))] ?? 0)} ms`;
console.log(
  `starts, readings ${onlyRigid ? 'rigid' : 'fixed'}, clocks ${clocks ?? 'of all kinds'}: ${bad} of ` +
    `${times.length} end above the truth's χ²; CPU time median ${at(0.5)}, 95 in 100 ${at(0.95)}, most ${at(1)}`,
);
