import fc from 'fast-check';

/** Explicit seeds: a failure is repeated by running again. */
export const seeded = { seed: 50_263, numRuns: 200 } as const;
/** In steps of a millionth: finer than any tolerance here, and quick to shrink. */
export const within = (least: number, most: number): fc.Arbitrary<number> =>
  fc.integer({ min: Math.ceil(least * 1e6), max: Math.floor(most * 1e6) }).map((n) => n / 1e6);
export const aPlace = fc.record({ x: within(-150, 150), y: within(-150, 150) });
export const aView = fc.constantFrom('from outside' as const, 'from behind' as const);
export const aTurn = within(-Math.PI, Math.PI);
