/** Longest row or side, in places. */
const LONGEST = 24;

export interface Levels {
  /** Mean of each level, rising. */
  readonly means: readonly number[];
  /** Level of each value. */
  readonly of: readonly number[];
}

/** Values gathered into levels no wider than `wide`. */
export const levels = (values: readonly number[], wide: number): Levels => {
  const order = values.map((v, i) => ({ v, i })).sort((a, b) => a.v - b.v);
  const groups: { readonly v: number; readonly i: number }[][] = [];
  for (const o of order) {
    const last = groups.at(-1);
    if (last !== undefined && o.v - (last[0]?.v ?? 0) <= wide) last.push(o);
    else groups.push([o]);
  }
  const of = values.map(() => -1);
  for (const [k, g] of groups.entries()) for (const o of g) of[o.i] = k;
  return { means: groups.map((g) => g.reduce((s, o) => s + o.v, 0) / g.length), of };
};

/** Places 0, 1, … of levels that are a whole number of pitches apart; null where no pitch serves. */
export const evenly = (
  means: readonly number[],
  wide: number,
): { readonly places: readonly number[]; readonly pitch: number } | null => {
  const first = means[0] ?? 0;
  const span = (means.at(-1) ?? 0) - first;
  if (means.length < 2 || span <= 0) return null;
  for (let parts = means.length - 1; parts < Math.min(2 * means.length, LONGEST); parts++) {
    const pitch = span / parts;
    if (pitch < 2 * wide) return null;
    const steps = means.map((m) => (m - first) / pitch);
    if (steps.every((s) => Math.abs(s - Math.round(s)) * pitch <= wide))
      return { places: steps.map(Math.round), pitch };
  }
  return null;
};
