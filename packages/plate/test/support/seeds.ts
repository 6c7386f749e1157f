import fc from 'fast-check';

/** Explicit seeds: a failure is repeated by running again. */
export const seeded = { seed: 50_263, numRuns: 200 } as const;
export const within = (least: number, most: number): fc.Arbitrary<number> => fc.double({ min: least, max: most, noNaN: true });
export const aPlace = fc.record({ x: within(-150, 150), y: within(-150, 150) });
export const aView = fc.constantFrom('from outside' as const, 'from behind' as const);
export const aTurn = within(-Math.PI, Math.PI);
