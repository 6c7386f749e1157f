import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';

/** A stream of random numbers from an explicit seed: the only source of chance in the project. */
export interface Random {
  /** Uniform in [0, 1), 53 bits. */
  readonly uniform: () => number;
  /** Standard normal (Marsaglia's polar method). */
  readonly normal: () => number;
  /** Whole number from 0 to n − 1. */
  readonly below: (n: number) => number;
}

/** The stream of a seed (xoroshiro128+): the same seed gives the same numbers on every machine. */
export const randomFrom = (seed: number): Random => {
  const generator = xoroshiro128plus(seed | 0);
  const uniform = (): number => {
    const high = generator.next() >>> 6;
    const low = generator.next() >>> 5;
    return (high * 134_217_728 + low) / 9_007_199_254_740_992;
  };
  let spare: number | null = null;
  const normal = (): number => {
    if (spare !== null) {
      const kept = spare;
      spare = null;
      return kept;
    }
    for (;;) {
      const u = 2 * uniform() - 1;
      const v = 2 * uniform() - 1;
      const s = u * u + v * v;
      if (s > 0 && s < 1) {
        const f = Math.sqrt((-2 * Math.log(s)) / s);
        spare = v * f;
        return u * f;
      }
    }
  };
  return { uniform, normal, below: (n) => Math.floor(uniform() * n) };
};
