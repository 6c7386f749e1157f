import { solveScaled } from '../adjust/solver.js';
import { type Equations, linearise, normalMatrix, scalesOf } from '../adjust/system.js';
import { factorise } from '../sparse/factor.js';

/**
 * χ² that one step of Gauss–Newton promises where some observations are taken at another place of the unknowns; null
 * where it cannot tell.
 */
type Foresight = (observations: readonly number[], x: Float64Array) => number | null;

interface Row {
  readonly unknowns: readonly number[];
  readonly slopes: Float64Array;
  readonly misfit: number;
}

/** More observations than this are not looked into: a feature that so many tie has no other place. */
const MOST = 14;

/** Solves a small dense system by elimination with pivoting, in place; false where it is singular. */
const eliminate = (a: readonly Float64Array[], b: Float64Array): boolean => {
  const n = b.length;
  const rows = [...a];
  for (let j = 0; j < n; j++) {
    let p = j;
    for (let i = j + 1; i < n; i++) if (Math.abs(rows[i]?.[j] ?? 0) > Math.abs(rows[p]?.[j] ?? 0)) p = i;
    const pivot = rows[p];
    const other = rows[j];
    if (pivot === undefined || other === undefined || !(Math.abs(pivot[j] as number) > 1e-12)) return false;
    rows[p] = other;
    rows[j] = pivot;
    const kept = b[p] as number;
    b[p] = b[j] as number;
    b[j] = kept;
    for (let i = j + 1; i < n; i++) {
      const row = rows[i];
      if (row === undefined) continue;
      const k = (row[j] as number) / (pivot[j] as number);
      if (k === 0) continue;
      for (let l = j; l < n; l++) row[l] = (row[l] as number) - k * (pivot[l] as number);
      b[i] = (b[i] as number) - k * kept;
    }
  }
  for (let j = n - 1; j >= 0; j--) {
    let s = b[j] as number;
    for (let l = j + 1; l < n; l++) s -= (rows[j]?.[l] ?? 0) * (b[l] as number);
    b[j] = s / (rows[j]?.[j] ?? 1);
  }
  return true;
};

/**
 * What moving a feature to another place would come to once all the rest has followed, from the equations at a minimum:
 * the rows of its observations are exchanged in N by the Sherman–Morrison–Woodbury formula, so that each place costs a
 * few solutions, not a factor.
 */
export const foresightAt = (equations: Equations, x: Float64Array): Foresight => {
  const at = linearise(equations, x, []);
  const scales = scalesOf(equations, at.slopes);
  const factor = factorise(normalMatrix(equations, at.slopes, scales), 1e-10);
  const { offsets, observations, meter, pattern } = equations;
  meter.spent += equations.cost;
  const oneSolution = 2 * pattern.rows.length + 8 * pattern.size;
  const scratch = new Float64Array(64);
  const rowAt = (i: number, there: Float64Array): Row => {
    const o = observations[i];
    if (o === undefined) throw new RangeError(`no observation ${i}`);
    const misfit = (o.value - o.model(there, scratch)) / o.sigma;
    return {
      unknowns: o.unknowns,
      slopes: Float64Array.from(o.unknowns, (_, k) => (scratch[k] as number) / o.sigma),
      misfit,
    };
  };
  const solved = ({ unknowns, slopes }: Row): Float64Array => {
    meter.spent += oneSolution;
    const b = new Float64Array(x.length);
    for (const [k, u] of unknowns.entries()) b[u] = (b[u] as number) + (slopes[k] as number);
    return solveScaled(factor, scales, b);
  };
  const before = new Map<number, { readonly row: Row; readonly z: Float64Array }>();
  const old = (i: number): { readonly row: Row; readonly z: Float64Array } => {
    const known = before.get(i);
    if (known !== undefined) return known;
    const from = offsets[i] as number;
    const unknowns = observations[i]?.unknowns ?? [];
    const row = {
      unknowns,
      slopes: at.slopes.slice(from, from + unknowns.length),
      misfit: at.weightedResiduals[i] as number,
    };
    const made = { row, z: solved(row) };
    before.set(i, made);
    return made;
  };
  return (moved, there) => {
    if (moved.length > MOST) return null;
    const was = moved.map(old);
    const is = moved.map((i) => {
      const row = rowAt(i, there);
      return { row, z: solved(row) };
    });
    const all = [...was, ...is];
    const k = moved.length;
    const g = all.map(({ row }) =>
      Float64Array.from(all, ({ z }) =>
        row.unknowns.reduce((sum, u, n) => sum + (row.slopes[n] as number) * (z[u] as number), 0),
      ),
    );
    const c = Float64Array.from(all, ({ row }, i) => (i < k ? -row.misfit : row.misfit));
    const gc = Float64Array.from(g, (row) => row.reduce((sum, v, i) => sum + v * (c[i] as number), 0));
    const inner = Float64Array.from(gc);
    if (
      !eliminate(
        g.map((row, i) => row.map((v, j) => (i === j ? v + (i < k ? -1 : 1) : v))),
        inner,
      )
    )
      return null;
    const gained = gc.reduce((sum, v, i) => sum + v * ((c[i] as number) - (inner[i] as number)), 0);
    return at.chi2 + all.reduce((sum, { row }, i) => sum + (i < k ? -1 : 1) * row.misfit ** 2, 0) - gained;
  };
};
