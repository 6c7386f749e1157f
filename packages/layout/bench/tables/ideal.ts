import { steps } from '../../test/support/scenes.js';

/**
 * The best that any chooser could make of a diameter that was chosen by one of the seven equally likely ways, told that
 * the holes are equally divided about the spigot and how well the readings fix it.
 */
export const idealChoice = (
  measured: number,
  sigma: number,
): { readonly value: number | null; readonly odds: number } => {
  const weights = new Map<string, { value: number; weight: number }>();
  let total = 1 / 7;
  for (const step of steps) {
    if (step === null) continue;
    for (let k = Math.ceil((measured - 8 * sigma) / step); k <= Math.floor((measured + 8 * sigma) / step); k++) {
      const value = k * step;
      const weight =
        (step / 7) * (Math.exp(-(((value - measured) / sigma) ** 2) / 2) / (sigma * Math.sqrt(2 * Math.PI)));
      const kept = weights.get(value.toFixed(6)) ?? { value, weight: 0 };
      kept.weight += weight;
      weights.set(value.toFixed(6), kept);
      total += weight;
    }
  }
  const [best] = [...weights.values()].sort((a, b) => b.weight - a.weight);
  return best === undefined || best.weight < 1 / 7
    ? { value: null, odds: 1 / 7 / total }
    : { value: best.value, odds: best.weight / total };
};
