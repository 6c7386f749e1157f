/** How much of the doubt about an outcome is left when some sizes are known. */
export interface Doubt {
  /** Mean of p (1 − p) about each world, p the share of worlds like it in which the outcome is; 0: none left. */
  readonly left: number;
  /** Share of worlds in which the outcome would be predicted. */
  readonly right: number;
}

/** Worlds that are like another: its nearest by the sizes known. */
const neighbours = (n: number): number => Math.max(5, Math.round(Math.sqrt(n)));

const spread = (values: readonly number[]): number => {
  const mean = values.reduce((a, b) => a + b, 0) / Math.max(1, values.length);
  return Math.sqrt(values.reduce((s, v) => s + (v - mean) ** 2, 0) / Math.max(1, values.length)) || 1;
};

/**
 * Doubt left about `outcomes` (one a world, true or false) when the columns of `known` (one number a world each) are
 * known: each world is told by its nearest in those columns, itself left out. With no column, the doubt as it is: p (1
 * − p) of all.
 */
export const doubtLeft = (outcomes: readonly boolean[], known: readonly (readonly number[])[]): Doubt => {
  const n = outcomes.length;
  const all = outcomes.filter(Boolean).length / Math.max(1, n);
  if (known.length === 0) return { left: all * (1 - all), right: Math.max(all, 1 - all) };
  const columns = known.map((c) => {
    const s = spread(c);
    return c.map((v) => v / s);
  });
  const k = Math.min(neighbours(n), n - 1);
  const far = new Float64Array(k);
  const who = new Int32Array(k);
  let differ = 0;
  let right = 0;
  for (let i = 0; i < n; i++) {
    far.fill(Infinity);
    for (let j = 0; j < n; j++) {
      if (j === i) continue;
      let d = 0;
      for (const c of columns) d += ((c[j] ?? 0) - (c[i] ?? 0)) ** 2;
      // The nearest so far stand in order: one that is nearer than the last is put in its place.
      let at = k - 1;
      if (!(d < (far[at] ?? 0))) continue;
      for (; at > 0 && d < (far[at - 1] ?? 0); at--) {
        far[at] = far[at - 1] ?? 0;
        who[at] = who[at - 1] ?? 0;
      }
      far[at] = d;
      who[at] = j;
    }
    let alike = 0;
    for (const j of who) if (outcomes[j] === outcomes[i]) alike++;
    differ += (k - alike) / k;
    // Told by the majority about it, itself left out.
    if (2 * alike > k) right++;
    else if (2 * alike === k) right += 0.5;
  }
  // Two drawn alike differ with chance 2 p (1 − p).
  return { left: differ / n / 2, right: right / n };
};
