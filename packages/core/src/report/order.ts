/** Order of words by code unit: the same on every machine, and no table of any language need be loaded for it. */
export const byCodeUnit = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);
