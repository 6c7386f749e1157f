/**
 * Whole solutions from readings alone, no start known: plates of four readings a hole, clean and with 1 % of them off
 * by a millimetre.
 */
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
const most = Number(process.argv[2] ?? 1000);
const RUNS = 3;
/** Clean and with slips: the last two sizes. */
const spent: Record<number, [holes: number, ms: number][]> = { 0: [], 0.01: [] };
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
    spent[share]?.push([holes, times[times.length >> 1] ?? 0]);
    const named = new Set(located.suspects.flatMap((s) => [s.reading, ...s.tiedWith]));
    const found = [...slips].filter((i) => named.has(readings[i]?.id ?? '')).length;
    console.log(
      `${String(holes).padStart(5)} ${String(readings.length).padStart(9)} ${String(slips.size).padStart(6)} ` +
        `${(times[times.length >> 1] ?? 0).toFixed(0).padStart(8)} ` +
        `(${goal})${' '.repeat(8)}${found} of ${slips.size}, ` +
        `${located.suspects.length} called suspect, ${located.stopped.converged ? 'settled' : 'not settled'}`,
    );
  }
}
for (const [share, list] of Object.entries(spent)) {
  const [from, to] = [list.find(([n]) => n === 60), list.at(-1)];
  if (from !== undefined && to !== undefined && to !== from)
    console.log(
      `exponent from ${from[0]} to ${to[0]} holes, ${100 * Number(share)} % slips: ` +
        `${(Math.log(to[1] / from[1]) / Math.log(to[0] / from[0])).toFixed(2)} (goal 1.3)`,
    );
}
