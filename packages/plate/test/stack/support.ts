import type { StackLimit, StackSpec } from '@fayplate/job';

/** `{ reach: 1, plate: -1 }` as the sum of a limit. */
export const limit = (
  name: string,
  sum: Readonly<Record<string, number>>,
  least: number | null,
  most: number | null = null,
): StackLimit => ({
  name,
  sum: new Map(Object.entries(sum)),
  least,
  most,
});

export const stack = (
  links: Readonly<Record<string, readonly [number, number]>>,
  limits: readonly StackLimit[],
  rest: Partial<StackSpec> = {},
): StackSpec => ({
  links: Object.entries(links).map(([name, [value, plusMinus]]) => ({ name, value, plusMinus })),
  unknown: { name: 'plate', from: 0, to: 1000, made: null },
  shims: null,
  onHand: null,
  limits,
  ...rest,
});

/** An invented pump: a shaft's reach through a plate and gasket into a coupling. */
export const pump = (rest: Partial<StackSpec> = {}): StackSpec =>
  stack(
    { reach: [61.2, 0.2], mouth: [6, 0.1], floor: [44, 0.2], gasket: [0.8, 0.1] },
    [
      limit('engagement', { reach: 1, plate: -1, gasket: -1, mouth: -1 }, 25),
      limit('tip gap', { floor: 1, plate: 1, gasket: 1, reach: -1 }, 1, 3),
    ],
    { unknown: { name: 'plate', from: 12, to: 30, made: null }, ...rest },
  );
