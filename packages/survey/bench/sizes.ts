/** Whole solutions from readings alone, no start known: plates of four readings a hole, clean and with 1 % of them off by a millimetre. */
import { randomFrom } from '@fayplate/core';
import { locateFace } from '../src/index.js';
import { gridShop } from '../test/shops.js';
import { simulate } from '../test/simulate.js';

const goals: readonly (readonly [holes: number, milliseconds: number])[] = [
  [12, 20],
  [60, 100],
  [300, 1000],
  [1000, 5000],
];
const most = Number(process.argv[2] ?? 300);
const RUNS = 3;
console.log('holes  readings  slips   milliseconds (goal)   found');
for (const [holes, goal] of goals.filter(([n]) => n <= most)) {
  for (const share of [0, 0.01]) {
    const random = randomFrom(5_151 + holes);
    const shop = gridShop(holes, random);
    const { survey } = simulate(shop.template, shop.truth, random);
    const slips = new Set<number>();
    while (slips.size < Math.ceil(share * survey.face.readings.length))
      slips.add(random.below(survey.face.readings.length));
    const readings = survey.face.readings.map((r, i) => (slips.has(i) ? { ...r, value: r.value + 1 } : r));
    const job = { ...survey, face: { ...survey.face, readings } };
    let located = locateFace(job, { next: false });
    const times = Array.from({ length: holes > 300 ? 1 : RUNS }, () => {
      const before = process.cpuUsage().user;
      located = locateFace(job, { next: false });
      return (process.cpuUsage().user - before) / 1000;
    }).sort((a, b) => a - b);
    const named = new Set(located.suspects.flatMap((s) => [s.reading, ...s.tiedWith]));
    const found = [...slips].filter((i) => named.has(readings[i]?.id ?? '')).length;
    console.log(
      `${String(holes).padStart(5)} ${String(readings.length).padStart(9)} ${String(slips.size).padStart(6)} ` +
        `${(times[times.length >> 1] ?? 0).toFixed(0).padStart(8)} (${goal})${' '.repeat(8)}${found} of ${slips.size}, ` +
        `${located.suspects.length} called suspect, ${located.stopped.converged ? 'settled' : 'not settled'}`,
    );
  }
}
