/** A linear function of the unknowns, as slot → weight: few entries where it can be few. */
export type Row = ReadonlyMap<number, number>;

export const rowOf = (...terms: readonly (readonly [slot: number, weight: number])[]): Row => {
  const row = new Map<number, number>();
  for (const [slot, weight] of terms) row.set(slot, (row.get(slot) ?? 0) + weight);
  return row;
};

/** Σ weight · row, entries that cancel exactly left out. */
export const combine = (...parts: readonly (readonly [weight: number, row: Row])[]): Row => {
  const out = new Map<number, number>();
  for (const [weight, row] of parts) for (const [slot, w] of row) out.set(slot, (out.get(slot) ?? 0) + weight * w);
  for (const [slot, w] of out) if (w === 0) out.delete(slot);
  return out;
};

export const times = (row: Row, v: Float64Array): number => {
  let sum = 0;
  for (const [slot, weight] of row) sum += weight * (v[slot] as number);
  return sum;
};

export const dense = (row: Row, count: number): Float64Array => {
  const out = new Float64Array(count);
  for (const [slot, weight] of row) out[slot] = weight;
  return out;
};
