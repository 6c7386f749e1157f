import { type Bought, bought, judged, kinds } from '../journeys/buying.js';

/**
 * Odds of `buy` beside what came of the parts, by what decides whether a plate can exist. Goal: within 2 standard
 * deviations, squared error no more than due.
 */
const sellers = Number(process.argv[2] ?? 60);
const bins = [0, 0.05, 0.3, 0.7, 0.95, 1.001];

for (const kind of kinds) {
  const all: Bought[] = [];
  for (let i = 0; i < sellers; i++) all.push(await bought(kind, 5000 + i, Number(process.argv[3] ?? 100)));
  const j = judged(all);
  console.log(
    `${kind.padEnd(9)} ${sellers} sellers: claimed ${j.claimed.toFixed(1)}, came ${j.came}: ${j.apart.toFixed(2)} ` +
      `standard deviations apart (goal: within 2); squared error ${j.brier.toFixed(3)}, due ${j.due.toFixed(3)}; ` +
      'always one half: 0.250',
  );
  console.log(
    bins
      .slice(0, -1)
      .map((from, i) => {
        const some = all.filter((b) => b.odds >= from && b.odds < (bins[i + 1] ?? 2));
        return some.length === 0
          ? ''
          : `  said ${from} to ${Math.min(1, bins[i + 1] ?? 1)}: ${some.length}, of which ` +
              `${some.filter((b) => b.made).length} came`;
      })
      .filter((line) => line !== '')
      .join('\n'),
  );
}
