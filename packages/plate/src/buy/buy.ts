import { randomFrom } from '@fayplate/core';
import type { Job } from '@fayplate/job';
import type { FaceLayout, UsedPattern } from '@fayplate/layout';
import { solveStack } from '../stack/solve.js';
import { type TryOptions, tryPlate } from '../try-plate.js';
import { type Doubt, doubtLeft } from './telling.js';
import { samplerOf } from './sampler.js';
import { asksIn } from './asks.js';
import { drawWorld } from './worlds.js';

/** One size to ask for, and the doubt that is left once it is known with those before it. */
interface AskFor {
  readonly says: string;
  /** The same for a seller, who knows no job file. */
  readonly plainly: string;
  /** As the seller states it, mm. */
  readonly stated: number;
  readonly plusMinus: number;
  /** Share of the doubt that is left when it is known as well, 0 to 1. */
  readonly doubtLeft: number;
  /** Share of cases in which the answer is then predicted. */
  readonly right: number;
}

/** Whether a plate can exist between parts that are not all at hand. */
export interface Buying {
  readonly odds: number;
  /** Holds the odds 95 times in 100, for the number of trials (Wilson's interval). */
  readonly between: readonly [number, number];
  readonly trials: number;
  /** Thickness of the plates that can exist: 5, 50 and 95 in 100 are no thicker, mm; null where none can. */
  readonly thickness: readonly [number, number, number] | null;
  /** What stands in the way where none can, and in which share of all trials, the worst first. */
  readonly stops: readonly { readonly what: string; readonly share: number }[];
  /** Share of cases that is predicted with nothing asked. */
  readonly right: number;
  /** What to ask for, most telling first; at most three, fewer where no more helps. */
  readonly ask: readonly AskFor[];
}

/** How many plates are tried against the rough figures, and from which seed. */
interface BuyOptions extends Pick<TryOptions, 'benches'> {
  /** What each face may have been drawn as, with the odds; left out: every pattern is as its readings leave it. */
  readonly layouts?: ReadonlyMap<string, FaceLayout>;
  /** 200 where not said. */
  readonly trials?: number;
  readonly seed?: number;
  readonly progress?: (done: number, of: number) => void;
}

const USUAL = 200;
const NO_THICKNESS = 'stack: no thickness meets its limits';
/** A size that takes less than this share of the doubt away is not worth asking for. */
const WORTH = 0.02;
const MOST_ASKED = 3;
/** Few trials of whether it goes on: the parts are known exactly in each world, and drilling alone is left. */
const TRIALS = 40;

/** Wilson's interval, 95 in 100. */
const interval = (p: number, n: number): readonly [number, number] => {
  const z2 = 1.959964 ** 2;
  const middle = (p + z2 / (2 * n)) / (1 + z2 / n);
  const half = (1.959964 / (1 + z2 / n)) * Math.sqrt((p * (1 - p)) / n + z2 / (4 * n * n));
  return [Math.max(0, middle - half), Math.min(1, middle + half)];
};

const quantile = (sorted: readonly number[], q: number): number =>
  sorted[Math.min(sorted.length - 1, Math.floor(q * sorted.length))] ?? 0;

/**
 * Can a plate exist, by seeded trials: in each the parts are drawn as they may truly be, taken as measured from then
 * on, and the plate is designed for them with every check. Then which sizes tell most of the outcome, one after
 * another. Lengths mm.
 */
export const buying = (job: Job, used: ReadonlyMap<string, UsedPattern>, options: BuyOptions = {}): Buying => {
  const { trials = USUAL, seed = 1, benches, layouts, progress } = options;
  const random = randomFrom(seed);
  const asks = asksIn(job, used);
  const samplers = new Map(
    [...used].flatMap(([name, u]) => {
      const face = job.faces.find((f) => f.name === name);
      return face === undefined
        ? []
        : [[name, samplerOf(face, u, layouts?.get(name) ?? null, job.instruments)] as const];
    }),
  );
  const outcomes: boolean[] = [];
  const columns: number[][] = asks.map(() => []);
  const thick: number[] = [];
  const stops = new Map<string, number>();
  for (let t = 0; t < trials; t++) {
    const world = drawWorld(job, samplers, asks, random);
    const stack = world.job.stack === null ? null : solveStack(world.job.stack);
    const tried =
      stack?.ok === false
        ? null
        : tryPlate(world.job, world.used, { stack, trials: TRIALS, ...(benches === undefined ? {} : { benches }) });
    const why = new Set(tried === null ? [NO_THICKNESS] : tried.ok ? tried.fails.map((c) => c.rule) : tried.faults);
    outcomes.push(why.size === 0);
    for (const w of why) stops.set(w, (stops.get(w) ?? 0) + 1);
    if (tried?.ok === true && why.size === 0) thick.push(tried.plate.thickness);
    for (const [k, v] of world.values.entries()) columns[k]?.push(v);
    progress?.(t + 1, trials);
  }
  const odds = outcomes.filter(Boolean).length / trials;
  const sorted = thick.toSorted((a, b) => a - b);
  const base = doubtLeft(outcomes, []);
  return {
    odds,
    between: interval(odds, trials),
    trials,
    thickness: sorted.length === 0 ? null : [quantile(sorted, 0.05), quantile(sorted, 0.5), quantile(sorted, 0.95)],
    stops: [...stops].map(([what, n]) => ({ what, share: n / trials })).sort((a, b) => b.share - a.share),
    right: base.right,
    ask: base.left === 0 ? [] : tellingFirst(outcomes, columns, base).map((a) => ({ ...a, ...pick(asks, a.k) })),
  };
};

const pick = (
  asks: ReturnType<typeof asksIn>,
  k: number,
): Pick<AskFor, 'says' | 'plainly' | 'stated' | 'plusMinus'> => {
  const a = asks[k];
  return { says: a?.says ?? '', plainly: a?.plainly ?? '', stated: a?.stated ?? 0, plusMinus: a?.plusMinus ?? 0 };
};

/** The column that leaves least doubt, then the one that leaves least beside it, and so on. */
const tellingFirst = (
  outcomes: readonly boolean[],
  columns: readonly (readonly number[])[],
  base: Doubt,
): readonly { readonly k: number; readonly doubtLeft: number; readonly right: number }[] => {
  const chosen: { readonly k: number; readonly doubtLeft: number; readonly right: number }[] = [];
  let { left, right } = base;
  while (chosen.length < MOST_ASKED) {
    const taken = chosen.map((c) => columns[c.k] ?? []);
    const best = columns
      .flatMap((c, k) => (chosen.some((x) => x.k === k) ? [] : [{ k, ...doubtLeft(outcomes, [...taken, c]) }]))
      .reduce<{ readonly k: number; readonly left: number; readonly right: number } | null>(
        (b, d) => (b === null || d.left < b.left ? d : b),
        null,
      );
    if (best === null || left - best.left < WORTH * base.left) break;
    left = best.left;
    // Who knows more can answer as before: a lower share is chance.
    right = Math.max(right, best.right);
    chosen.push({ k: best.k, doubtLeft: left / base.left, right });
  }
  return chosen;
};
