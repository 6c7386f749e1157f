/**
 * Elimination order of the nodes of a graph by least degree (Markowitz 1957; Tinney & Walker 1967): fill stays low where the graph is
 * nearly planar, as readings between neighbouring holes are. `last` nodes are kept to the end in the order given. Ties go to the lower number.
 */
export const minimumDegree = (
  count: number,
  cliques: Iterable<readonly number[]>,
  last: readonly number[] = [],
): Int32Array => {
  const near: Set<number>[] = Array.from({ length: count }, () => new Set());
  for (const clique of cliques) {
    for (const a of clique) for (const b of clique) if (a !== b) near[a]?.add(b);
  }
  const held = new Set(last);
  const buckets: Set<number>[] = [];
  const file = (node: number): void => {
    const degree = near[node]?.size ?? 0;
    while (buckets.length <= degree) buckets.push(new Set());
    buckets[degree]?.add(node);
  };
  for (let node = 0; node < count; node++) if (!held.has(node)) file(node);
  const order = new Int32Array(count);
  let done = 0;
  let degree = 0;
  while (done < count - held.size) {
    while ((buckets[degree]?.size ?? 0) === 0) degree++;
    const node = Math.min(...(buckets[degree] as Set<number>));
    buckets[degree]?.delete(node);
    order[done++] = node;
    const around = [...(near[node] as Set<number>)];
    for (const a of around) {
      const set = near[a] as Set<number>;
      if (!held.has(a)) buckets[set.size]?.delete(a);
      set.delete(node);
      for (const b of around) if (a !== b) set.add(b);
    }
    for (const a of around) {
      if (held.has(a)) continue;
      file(a);
      degree = Math.min(degree, near[a]?.size ?? 0);
    }
  }
  for (const node of last) order[done++] = node;
  return order;
};
