import { wholeDrawings } from '../../src/index.js';
import { families, isTrue, shopFrom } from '../../test/support/families.js';
import { type Run, chance, judged, reliability, share } from './run.js';

/** Table 5: layouts of several parts, and patterns other than circles. */
export const composed = (run: Run): void => {
  const runs = Math.max(1, Math.round(run.runs / 10));
  console.log(`
5  Layouts of several parts, and patterns that are no circle: ${runs} faces a row. Each drawing in one unit (inches two in three), each size to a step of it as in 1 or, one in seven, to nothing.
   Readings: every distance between two features; σ 0.015, 0.03 or 0.06 mm, each as often.
   right: every place of the first candidate is the true one, to what it says itself that it does not know. chosen: as above. wrong: chosen and not right, of all.`);
  const honest = reliability();
  for (const [row, family] of families.entries()) {
    const random = chance(run, 40 + row);
    const count = { right: 0, chosen: 0, wrong: 0 };
    for (let k = 0; k < runs; k++) {
      const made = shopFrom(family, random);
      const { layout } = judged(made, random);
      const [first] = wholeDrawings(layout);
      const right = isTrue(first, made);
      if (right) count.right++;
      if (first !== undefined && first.odds > layout.asMeasured) honest.add(first.odds, right);
      if (layout.chosen !== null) count.chosen++;
      if (layout.chosen !== null && !isTrue(layout.candidates[layout.chosen], made)) count.wrong++;
    }
    console.log(
      `   ${family.name.padEnd(60)} right ${share(count.right, runs)}   chosen ${share(count.chosen, runs)}   ` +
        `wrong ${share(count.wrong, runs)}`,
    );
  }
  console.log('   Reliability of the first candidate, all rows:');
  honest.print();
};
