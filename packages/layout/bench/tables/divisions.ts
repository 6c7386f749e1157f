import type { Random } from '@fayplate/core';
import { type Candidate, wholeDrawings } from '../../src/index.js';
import { named, onDivisions, ringReadings, shopOf } from '../../test/support/scenes.js';
import { type Run, all, chance, drawSize, judged, reliability, share } from './run.js';

/** Some places of n divisions, the first among them, brought to the fewest divisions that say the same. */
export interface Places {
  readonly divisions: number;
  readonly occupied: readonly number[];
}

const common = (a: number, b: number): number => (b === 0 ? a : common(b, a % b));

const drawPlaces = (
  random: Random,
): { readonly n: number; readonly taken: readonly number[]; readonly simplest: Places } => {
  const n = 5 + random.below(20);
  const least = Math.max(4, Math.ceil(n / 2));
  const taken = [...all(n)];
  const wanted = least + random.below(n - least);
  while (taken.length > wanted) taken.splice(1 + random.below(taken.length - 1), 1);
  const shared = taken.reduce(common, n);
  return { n, taken, simplest: { divisions: n / shared, occupied: taken.map((t) => t / shared) } };
};

const isRight = (c: Candidate | undefined, { divisions, occupied }: Places): boolean => {
  const [circle, other] = c?.circles ?? [];
  if (
    circle === undefined ||
    other !== undefined ||
    circle.divisions !== divisions ||
    circle.features.length !== occupied.length
  )
    return false;
  const from = circle.occupied[circle.features.indexOf('P1')] ?? 0;
  return circle.features.every(
    (id, i) => ((circle.occupied[i] ?? 0) - from + divisions) % divisions === occupied[Number(id.slice(1)) - 1],
  );
};

/** Table 2: equal divisions with vacancies. */
export const divisions = (run: Run): void => {
  console.log(`
2  Equal divisions with vacant places about the spigot: n of 5–24, at least half of the places (four or more) and at most all but one taken; diameters as above.
   Readings: every hole to the spigot, to the next one and to the one half round the list; σ of each as a part of the spacing (chord between neighbouring divisions).
   right: the first candidate has the number of divisions and every occupied place. sure: odds of that arrangement, whatever its size, ≥ 0.95.`);
  const honest = reliability();
  for (const [row, part] of [20, 30, 50, 100].entries()) {
    const random = chance(run, 10 + row);
    const count = { right: 0, sure: 0, sureWrong: 0, chosen: 0, wrong: 0 };
    for (let k = 0; k < run.runs; k++) {
      const { n, taken, simplest } = drawPlaces(random);
      const { diameter } = drawSize(random);
      const sigma = (diameter * Math.sin(Math.PI / n)) / part;
      const { layout } = judged(
        shopOf(named(onDivisions(diameter, n, taken)), ringReadings(taken.length, sigma)),
        random,
      );
      const [first] = wholeDrawings(layout);
      const right = isRight(first, simplest);
      const odds = right
        ? wholeDrawings(layout).reduce((s, c) => s + (isRight(c, simplest) ? c.odds : 0), 0)
        : (first?.odds ?? layout.asMeasured);
      honest.add(odds, right);
      if (right) count.right++;
      if (odds >= 0.95) count.sure++;
      if (odds >= 0.95 && !right) count.sureWrong++;
      if (layout.chosen !== null) count.chosen++;
      if (layout.chosen !== null && !right) count.wrong++;
    }
    const of = (x: number): string => share(x, run.runs);
    console.log(
      `   σ 1/${String(part).padEnd(3)}: right ${of(count.right)}   sure ${of(count.sure)}   sure and wrong ` +
        `${of(count.sureWrong)}   chosen, size and all ${of(count.chosen)}   its arrangement wrong ` +
        of(count.wrong),
    );
  }
  console.log('   Reliability of the arrangement, all rows:');
  honest.print();
};
