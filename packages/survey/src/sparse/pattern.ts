import { bitRows, countOf, numbersOf, put, takeOut, unite } from './bits.js';

/**
 * Elimination order of the nodes of a graph by least degree (Markowitz 1957; Tinney & Walker 1967): fill stays low
 * where the graph is nearly planar, as readings between neighbouring holes are. `last` nodes are kept to the end in the
 * order given. Ties go to the lower number.
 */
export const minimumDegree = (
  count: number,
  cliques: Iterable<readonly number[]>,
  last: readonly number[] = [],
): Int32Array => {
  const near = bitRows(count, count);
  for (const clique of cliques) {
    for (const a of clique) for (const b of clique) if (a !== b) put(near, a, b);
  }
  const left = new Uint8Array(count).fill(1);
  for (const node of last) left[node] = 0;
  const degrees = Int32Array.from({ length: count }, (_, node) => countOf(near, node));
  const order = new Int32Array(count);
  let done = 0;
  for (const end = count - new Set(last).size; done < end;) {
    let node = -1;
    for (let n = 0; n < count; n++)
      if (left[n] === 1 && (node < 0 || (degrees[n] as number) < (degrees[node] as number))) node = n;
    left[node] = 0;
    order[done++] = node;
    // Those around it come to meet each other.
    for (const a of numbersOf(near, node)) {
      unite(near, a, node);
      takeOut(near, a, a);
      takeOut(near, a, node);
      degrees[a] = countOf(near, a);
    }
  }
  for (const node of last) order[done++] = node;
  return order;
};

/**
 * The lower triangle of a symmetric matrix and of its factor L, in columns, rows rising, after the unknowns are put in
 * elimination order.
 * `place(i, j)` of the sums that build the matrix are looked up once, so that each new set of values costs additions
 * only.
 */
export interface FactorPattern {
  readonly size: number;
  /** position in elimination order → unknown. */
  readonly order: Int32Array;
  /** unknown → position in elimination order. */
  readonly rank: Int32Array;
  /** Column j of L holds `rows[starts[j]] … rows[starts[j + 1] − 1]`, the diagonal left out. */
  readonly starts: Int32Array;
  readonly rows: Int32Array;
  /**
   * First columns of runs whose rows below the run are the same (supernodes), closed by `size`: they are worked on as
   * one dense block.
   */
  readonly runs: Int32Array;
  /**
   * 1 where position j and the next are the x and y of one point: they are pivoted as a pair, turned to the pair's own
   * principal axes.
   */
  readonly pairs: Uint8Array;
}

/** A run of more columns is parted, so that its block stays in the processor's cache. */
const WIDEST = 32;

/**
 * Pattern of L for a matrix whose off-diagonal entries are the pairs within each clique, cliques and `order` in
 * unknowns.
 * `points`: unknowns that are the x of a point, their y next in `order` and in the same cliques.
 */
export const symbolicFactor = (
  size: number,
  cliques: readonly (readonly number[])[],
  order: Int32Array,
  points: ReadonlySet<number> = new Set(),
): FactorPattern => {
  const rank = new Int32Array(size);
  for (let k = 0; k < size; k++) rank[order[k] as number] = k;
  const below = bitRows(size, size);
  for (const clique of cliques) {
    const at = clique.map((u) => rank[u] as number).sort((a, b) => a - b);
    for (const [k, j] of at.entries()) for (const i of at.slice(k + 1)) if (i !== j) put(below, j, i);
  }
  // Fill: the rows of a column, except its first, stand in the column of that first row too (the elimination tree).
  const columns = Array.from({ length: size }, (_, j) => {
    const rows = numbersOf(below, j);
    const [parent] = rows;
    if (parent !== undefined) {
      unite(below, parent, j);
      takeOut(below, parent, parent);
    }
    return rows;
  });
  const starts = new Int32Array(size + 1);
  for (const [j, rows] of columns.entries()) starts[j + 1] = (starts[j] as number) + rows.length;
  const follows = (j: number): boolean => {
    const [before, here] = [columns[j - 1], columns[j]];
    return before !== undefined && here !== undefined && before[0] === j && before.length === here.length + 1;
  };
  const pairs = Uint8Array.from(order, (u, j) => (points.has(u) && follows(j + 1) ? 1 : 0));
  const runs: number[] = [];
  for (const j of columns.keys())
    if (!follows(j) || (j - (runs.at(-1) ?? 0) >= WIDEST && pairs[j - 1] !== 1)) runs.push(j);
  return {
    size,
    order,
    rank,
    starts,
    rows: Int32Array.from(columns.flat()),
    runs: Int32Array.from([...runs, size]),
    pairs,
  };
};

/**
 * Where entry (i, j) of unknowns stands: below zero ~k for the diagonal of position k, else an index into the values of
 * L's pattern; NaN where absent.
 */
export const placeOf = (pattern: FactorPattern, i: number, j: number): number => {
  const a = pattern.rank[i] as number;
  const b = pattern.rank[j] as number;
  if (a === b) return ~a;
  const column = Math.min(a, b);
  const row = Math.max(a, b);
  let low = pattern.starts[column] as number;
  let high = (pattern.starts[column + 1] as number) - 1;
  while (low <= high) {
    const middle = (low + high) >> 1;
    const found = pattern.rows[middle] as number;
    if (found === row) return middle;
    if (found < row) low = middle + 1;
    else high = middle - 1;
  }
  return Number.NaN;
};
