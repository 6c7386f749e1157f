import { distance } from '@fayplate/core';
import { type Candidate, wholeDrawings } from '../../src/index.js';
import { isTrue } from '../../test/support/families.js';
import { INCH, named, onDivisions, ringReadings, shopOf } from '../../test/support/scenes.js';
import { idealChoice } from './ideal.js';
import { type Run, all, chance, drawSize, judged, reliability, share } from './run.js';

export const isRight = (c: Candidate | undefined, diameter: number, round: boolean): boolean => {
  const [circle, other] = c?.circles ?? [];
  if (
    c === undefined ||
    circle === undefined ||
    other !== undefined ||
    circle.divisions !== 8 ||
    c.asMeasured.length > 0
  )
    return false;
  return round ? circle.size !== null && Math.abs(circle.diameter - diameter) < 1e-6 : circle.size === null;
};

/** Table 1: the diameter of an eight-hole circle. */
export const diameters = (run: Run): void => {
  console.log(`
1  The diameter of an eight-hole circle about its spigot, 100–250 mm; to 1/8, 1/16, 1/32, 1/64 in, 1 mm, 0.5 mm or to nothing, each as often.
   Readings (20): every hole to the spigot, every hole to the next, the four pairs straight across; σ each.
   right: the first candidate has the eight divisions and the size, or rightly no round one. chosen: some level has odds ≥ 0.95 and p ≥ 0.01.
   wrong: chosen, and some place is not the true one to what the layout says itself that it does not know, of all.
   sized: chosen with a round size, and of those the wrong ones, of all.
   ideal: a chooser that is told the divisions. rounding: the holes' mean distance to the spigot, doubled, to the nearest 1/32 in.`);
  const honest = reliability();
  for (const [row, sigma] of [0.025, 0.1, 0.2].entries()) {
    const random = chance(run, row);
    const count = {
      right: 0,
      chosen: 0,
      wrong: 0,
      sized: 0,
      sizedWrong: 0,
      rounded: 0,
      ideal: 0,
      idealSure: 0,
      idealWrong: 0,
      idealSized: 0,
      idealSizedWrong: 0,
    };
    const start = performance.now();
    for (let k = 0; k < run.runs; k++) {
      const { diameter, round } = drawSize(random);
      const made = shopOf(named(onDivisions(diameter, 8, all(8))), ringReadings(8, sigma));
      const { layout, points } = judged(made, random);
      const [first] = wholeDrawings(layout);
      const right = isRight(first, diameter, round);
      if (right) count.right++;
      honest.add(first?.odds ?? layout.asMeasured, right);
      if (layout.chosen !== null) count.chosen++;
      if (layout.chosen !== null && !isTrue(layout.candidates[layout.chosen], made)) count.wrong++;
      const taken = layout.candidates[layout.chosen ?? -1];
      const sized = (taken?.circles[0]?.size ?? null) !== null;
      if (sized) count.sized++;
      if (sized && !right) count.sizedWrong++;
      const [spigot, ...holes] = points;
      const mean = holes.reduce((s, p) => s + distance(p, spigot ?? p), 0) / 8;
      if (round && Math.abs((Math.round((2 * mean * 32) / INCH) * INCH) / 32 - diameter) < 1e-6) count.rounded++;
      // Σ (∂ reading / ∂ diameter)²: four across 1, eight chords sin² 22.5°, eight radii 1/4.
      const sigmaD = sigma / Math.sqrt(4 + 8 * Math.sin(Math.PI / 8) ** 2 + 2);
      const ideal = idealChoice(diameter + sigmaD * random.normal(), sigmaD);
      const idealRight = round ? ideal.value !== null && Math.abs(ideal.value - diameter) < 1e-6 : ideal.value === null;
      if (idealRight) count.ideal++;
      if (ideal.odds >= 0.95) count.idealSure++;
      if (ideal.odds >= 0.95 && !idealRight) count.idealWrong++;
      if (ideal.odds >= 0.95 && ideal.value !== null) count.idealSized++;
      if (ideal.odds >= 0.95 && ideal.value !== null && !idealRight) count.idealSizedWrong++;
    }
    const ms = (performance.now() - start) / run.runs;
    const of = (n: number): string => share(n, run.runs);
    console.log(`   σ ${sigma.toFixed(3)} mm: right ${of(count.right)}   chosen ${of(count.chosen)}   wrong ${of(count.wrong)}   right of the chosen ${share(count.chosen - count.wrong, count.chosen)} (${count.chosen})
               sized ${of(count.sized)}, wrong ${of(count.sizedWrong)}
               ideal right ${of(count.ideal)}, sure ${of(count.idealSure)}, wrong ${of(count.idealWrong)}; sized ${of(count.idealSized)}, wrong ${of(count.idealSizedWrong)}
               rounding right ${of(count.rounded)}; ${ms.toFixed(1)} ms a face`);
  }
  console.log('   Reliability of the first candidate, all three rows:');
  honest.print();
};
