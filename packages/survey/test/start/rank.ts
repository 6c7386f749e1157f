import type { Network } from '../../src/network/network.js';

/** Rank of the equations at x: JᵀJ eliminated with pivots from its diagonal, angles weighed as lengths at 100 mm. */
export const rankAt = (network: Network, x: Float64Array): number => {
  const n = x.length;
  const a = Array.from({ length: n }, () => new Float64Array(n));
  const slopes = new Float64Array(16);
  for (const o of network.observations) {
    o.model(x, slopes);
    for (const [i, u] of o.unknowns.entries()) {
      for (const [j, v] of o.unknowns.entries()) {
        const row = a[u];
        if (row !== undefined)
          row[v] = (row[v] ?? 0) + (slopes[i] ?? 0) * (slopes[j] ?? 0) * (o.measures === 'angle' ? 1e4 : 1);
      }
    }
  }
  const left = new Set(a.keys());
  for (let rank = 0; ; rank++) {
    let pivot = -1;
    for (const i of left) if (pivot < 0 || (a[i]?.[i] ?? 0) > (a[pivot]?.[pivot] ?? 0)) pivot = i;
    const row = a[pivot];
    const p = row?.[pivot] ?? 0;
    if (row === undefined || p < 1e-5) return rank;
    left.delete(pivot);
    for (const i of left) {
      const other = a[i];
      const k = (other?.[pivot] ?? 0) / p;
      if (other !== undefined && k !== 0) for (const j of left) other[j] = (other[j] ?? 0) - k * (row[j] ?? 0);
    }
  }
};
