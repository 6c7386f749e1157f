/**
 * The shortest way through all places, free to start and end at any, by dynamic programming over subsets
 * (Held & Karp 1962, J. SIAM 10, 196–210). `cost[i][j]` need not be symmetric. Time n²·2ⁿ: for n ≤ 16.
 */
export const shortestWay = (cost: readonly (readonly number[])[]): readonly number[] => {
  const n = cost.length;
  if (n === 0) return [];
  const full = 1 << n;
  const best = new Float64Array(full * n).fill(Infinity);
  const before = new Int8Array(full * n).fill(-1);
  for (let j = 0; j < n; j++) best[(1 << j) * n + j] = 0;
  for (let set = 1; set < full; set++) {
    for (let last = 0; last < n; last++) {
      const here = best[set * n + last] ?? Infinity;
      if (here === Infinity) continue;
      const row = cost[last] ?? [];
      for (let next = 0; next < n; next++) {
        if ((set >> next) & 1) continue;
        const at = (set | (1 << next)) * n + next;
        const reached = here + (row[next] ?? Infinity);
        if (reached < (best[at] ?? Infinity)) {
          best[at] = reached;
          before[at] = last;
        }
      }
    }
  }
  let set = full - 1;
  let last = 0;
  for (let j = 1; j < n; j++) if ((best[set * n + j] ?? Infinity) < (best[set * n + last] ?? Infinity)) last = j;
  const way: number[] = [];
  while (last >= 0) {
    way.push(last);
    const earlier = before[set * n + last] ?? -1;
    set &= ~(1 << last);
    last = earlier;
  }
  return way.reverse();
};
