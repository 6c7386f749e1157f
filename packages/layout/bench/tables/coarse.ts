import { isTrue } from '../../test/support/families.js';
import { wholeDrawings } from '../../src/index.js';
import { INCH, named, onDivisions, ringReadings, shopOf } from '../../test/support/scenes.js';
import { isRight } from './diameters.js';
import { idealChoice } from './ideal.js';
import { type Run, all, chance, judged, share } from './run.js';

const coarse: readonly number[] = [INCH / 4, INCH / 2, INCH, 5, 10, 25];

/** Table 4: sizes that are coarse in their unit. */
export const coarseSizes = (run: Run): void => {
  console.log(`
4  The same circle and readings as in 1, from a maker who keeps to 1/4, 1/2 or 1 in, 5, 10 or 25 mm, each as often. seven ways: the ideal chooser of 1, who thinks these no likelier than their fine steps make them.`);
  for (const [row, sigma] of [0.1, 0.2].entries()) {
    const random = chance(run, 30 + row);
    const count = { right: 0, chosen: 0, wrong: 0, seven: 0 };
    const sigmaD = sigma / Math.sqrt(4 + 8 * Math.sin(Math.PI / 8) ** 2 + 2);
    for (let k = 0; k < run.runs; k++) {
      const step = coarse[random.below(coarse.length)] ?? INCH;
      const diameter = step * Math.round((100 + 150 * random.uniform()) / step);
      const made = shopOf(named(onDivisions(diameter, 8, all(8))), ringReadings(8, sigma));
      const { layout } = judged(made, random);
      const right = isRight(wholeDrawings(layout)[0], diameter, true);
      if (right) count.right++;
      if (layout.chosen !== null) count.chosen++;
      if (layout.chosen !== null && !isTrue(layout.candidates[layout.chosen], made)) count.wrong++;
      const seven = idealChoice(diameter + sigmaD * random.normal(), sigmaD).value;
      if (seven !== null && Math.abs(seven - diameter) < 1e-6) count.seven++;
    }
    const of = (n: number): string => share(n, run.runs);
    console.log(
      `   σ ${sigma.toFixed(3)} mm: right ${of(count.right)}   chosen ${of(count.chosen)}   wrong ` +
        `${of(count.wrong)}   seven ways right ${of(count.seven)}`,
    );
  }
};
