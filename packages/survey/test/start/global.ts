import { Matrix, SingularValueDecomposition, solve } from 'ml-matrix';
import { randomFrom } from '@fayplate/core';
import { isDistance } from '@fayplate/job';
import type { Network } from '../../src/network/network.js';

/** Marks of the bench that its readings tie features to: a touch to one, an `at` to all. */
const MARKS = [0, 1, 2, 3];

type Pair = readonly [number, number];

/**
 * Features as numbers, and which pairs a distance ties; bench readings tie their features to marks that are tied to
 * each other.
 */
const graphOf = ({
  unknowns,
  readings,
  bench,
}: Network): { readonly count: number; readonly pairs: readonly Pair[] } => {
  const ids = [...unknowns.features.keys()];
  const numberOf = new Map(ids.map((id, i) => [id, i]));
  const marks = MARKS.map((k) => ids.length + k);
  const touches = new Map<number, number>();
  const tied = readings.flatMap((r): readonly Pair[] => {
    const [a = -1, b = -1] = r.features.map((id) => numberOf.get(id) ?? -1);
    if (isDistance(r.kind)) return [[a, b]];
    if (r.kind === 'at') return marks.map((m) => [a, m]);
    if (r.kind !== 'touch') return [];
    const nth = touches.get(a) ?? 0;
    touches.set(a, nth + 1);
    return marks.slice(nth, nth + 1).map((m) => [a, m]);
  });
  const bed = bench ? marks.flatMap((a) => marks.flatMap((b): readonly Pair[] => (a < b ? [[a, b]] : []))) : [];
  const pairs = new Map([...bed, ...tied].map(([a, b]) => [`${Math.min(a, b)} ${Math.max(a, b)}`, [a, b] as const]));
  return { count: ids.length + (bench ? MARKS.length : 0), pairs: [...pairs.values()] };
};

const rankOf = (m: Matrix): number => {
  const sizes = new SingularValueDecomposition(m, {
    computeLeftSingularVectors: false,
    computeRightSingularVectors: false,
  }).diagonal;
  return sizes.filter((s) => s > 1e-9 * (sizes[0] ?? 1)).length;
};

/**
 * Whether distances alone fix the shape of a general face so tied, but for its mirror image: the matrix of a general
 * stress of its ties has rank n − 3 (Connelly 2005; Gortler, Healy & Thurston 2010, from memory). Angles, lines and the
 * like are left out: a face that has them may be fixed though this says that it is not.
 */
export const isGloballyRigid = (network: Network): boolean => {
  const { count: n, pairs } = graphOf(network);
  if (pairs.length === (n * (n - 1)) / 2) return true;
  if (pairs.length < 2 * n - 2) return false;
  const random = randomFrom(n);
  const at = Array.from({ length: n }, () => [random.uniform(), random.uniform()] as const);
  const rigidity = Matrix.zeros(2 * n, pairs.length);
  for (const [k, [a, b]] of pairs.entries()) {
    for (const axis of [0, 1] as const) {
      const d = (at[a]?.[axis] ?? 0) - (at[b]?.[axis] ?? 0);
      rigidity.set(2 * a + axis, k, d);
      rigidity.set(2 * b + axis, k, -d);
    }
  }
  // Three coordinates pinned: the rest is invertible where the face is rigid at all.
  const pinned = rigidity.subMatrix(3, 2 * n - 1, 0, pairs.length - 1);
  const square = pinned.mmul(pinned.transpose());
  if (rankOf(square) < 2 * n - 3) return false;
  const any = Matrix.columnVector(pairs.map(() => random.normal()));
  const stress = Matrix.sub(any, pinned.transpose().mmul(solve(square, pinned.mmul(any))));
  const omega = Matrix.zeros(n, n);
  for (const [k, [a, b]] of pairs.entries()) {
    const w = stress.get(k, 0);
    for (const [i, j, v] of [
      [a, b, -w],
      [b, a, -w],
      [a, a, w],
      [b, b, w],
    ] as const)
      omega.set(i, j, omega.get(i, j) + v);
  }
  return rankOf(omega) === n - 3;
};
