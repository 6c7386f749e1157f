import type { StackLimit, StackSpec } from '@fayplate/job';

/** A limit's sum as a straight line in the unknown: known + factor × unknown, mm, with the band that the links' ± make of it. */
export interface Sum {
  readonly limit: StackLimit;
  readonly factor: number;
  /** At the links' nominal values. */
  readonly known: number;
  readonly bands: Bands;
}

/** Half widths, mm. */
export interface Bands {
  readonly worst: number;
  readonly statistical: number;
}

/** z of the statistical band, and the share of cases that it holds under a normal law. */
const standardDeviations = 3;
export const coverage = 0.9973;

/** Worst: every link at the end of its ±. Statistical: z·√Σ(±/2)², a ± being two standard uncertainties. */
const bandsOf = (spreads: readonly number[]): Bands => ({
  worst: spreads.reduce((a, b) => a + b, 0),
  statistical: standardDeviations * Math.hypot(...spreads.map((s) => s / 2)),
});

/** `exact`: a link, or the unknown's own making, to be taken as if it had no ±. */
export const sumsOf = (spec: StackSpec, exact: string | null = null): readonly Sum[] =>
  spec.limits.map((limit) => {
    let known = 0;
    let factor = 0;
    const spreads: number[] = [];
    for (const [name, times] of limit.sum) {
      const link = spec.links.find((l) => l.name === name);
      if (link === undefined && name !== spec.unknown.name)
        throw new RangeError(`limit ${limit.name} sums ${name}, which is no link`);
      if (link === undefined) factor += times;
      else known += times * link.value;
      if (name !== exact) spreads.push(Math.abs(times) * (link?.plusMinus ?? spec.unknown.made ?? 0));
    }
    return { limit, factor, known, bands: bandsOf(spreads) };
  });
