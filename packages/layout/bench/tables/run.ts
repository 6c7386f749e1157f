import { type Point, type Random, randomFrom } from '@fayplate/core';
import { type FaceLayout, layoutFace } from '../../src/index.js';
import { type Shop, faceOf, measure } from '../../test/support/network.js';
import { steps } from '../../test/support/scenes.js';

/** How a table is run: faces a row, and the seed that every row starts from. */
export interface Run {
  readonly runs: number;
  readonly seed: number;
}

export const all = (n: number): readonly number[] => Array.from({ length: n }, (_, k) => k);

/** A share and its standard error, `0.9497 ± 0.0022`. */
export const share = (part: number, whole: number): string => {
  const p = part / Math.max(whole, 1);
  return `${p.toFixed(4)} ± ${Math.sqrt((p * (1 - p)) / Math.max(whole, 1)).toFixed(4)}`;
};

export const chance = ({ seed }: Run, row: number): Random => randomFrom(seed + row);

/** One measurement of a shop, and the layout made of it. */
export const judged = (
  made: Shop,
  random: Random,
): { readonly layout: FaceLayout; readonly points: readonly Point[] } => {
  const points = measure(made, random);
  const { face, located } = faceOf(made, points);
  return { layout: layoutFace(face, located, { telling: false }), points };
};

/** A diameter of 100–250 mm, to 1/8, 1/16, 1/32, 1/64 in, 1 mm, 0.5 mm or to nothing, each as often. */
export const drawSize = (random: Random): { readonly diameter: number; readonly round: boolean } => {
  const step = steps[random.below(7)] ?? null;
  const any = 100 + 150 * random.uniform();
  return step === null ? { diameter: any, round: false } : { diameter: step * Math.round(any / step), round: true };
};

/** Answers gathered by the odds that they claim: they are honest where the share that is right agrees. */
export const reliability = () => {
  const edges = [0, 0.5, 0.7, 0.8, 0.9, 0.95, 0.98, 0.99, 0.999, 1];
  const bins = edges.slice(1).map((to, i) => ({ from: edges[i] ?? 0, to, count: 0, odds: 0, right: 0 }));
  return {
    add: (odds: number, right: boolean): void => {
      const bin = bins.find((b) => odds < b.to) ?? bins.at(-1);
      if (bin === undefined) return;
      bin.count++;
      bin.odds += odds;
      if (right) bin.right++;
    },
    print: (): void => {
      console.log('   odds claimed     count   mean odds  right');
      for (const b of bins) {
        if (b.count > 0)
          console.log(
            `   ${b.from.toFixed(3)} – ${b.to.toFixed(3)}  ${String(b.count).padStart(6)}   ` +
              `${(b.odds / b.count).toFixed(4)}     ${share(b.right, b.count)}`,
          );
      }
    },
  };
};
