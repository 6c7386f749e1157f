import type { Random } from '@fayplate/core';
import { lociOf } from './loci.js';
import { type Sketch, blankOf, setPoint } from './sketch.js';

/** Distances between centres that the readings state, both ways; infinite where none does. */
const stated = (sketch: Sketch): readonly Float64Array[] => {
  const n = sketch.slots.length;
  const d = Array.from({ length: n }, (_, i) => new Float64Array(n).fill(Number.POSITIVE_INFINITY).fill(0, i, i + 1));
  const radius = (f: number): number => sketch.radii[f] ?? 0;
  for (const tie of sketch.ties) {
    const [a = -1, b = -1] = tie.of;
    if (tie.of.length !== 2) continue;
    const [locus] = lociOf(tie, a, () => ({ x: 0, y: 0 }), radius);
    const row = d[a];
    const back = d[b];
    if (locus?.kind !== 'circle' || row === undefined || back === undefined) continue;
    row[b] = back[a] = Math.min(row[b] as number, locus.circle.radius);
  }
  return d;
};

/** Length of the shortest way along readings between any two features (Floyd 1962, CACM 5(6), from memory). */
const shortestWays = (sketch: Sketch): readonly Float64Array[] | null => {
  const d = stated(sketch);
  for (const [k, through] of d.entries()) {
    for (const row of d) {
      const first = row[k] as number;
      if (first === Number.POSITIVE_INFINITY) continue;
      for (const [j, second] of through.entries()) if (first + second < (row[j] as number)) row[j] = first + second;
    }
  }
  return d.every((row) => row.every((v) => Number.isFinite(v))) ? d : null;
};

/** Turns of the search for a matrix's greatest direction. */
const ITERATIONS = 60;

/** The direction that a symmetric matrix stretches most, and how much, by powers of it. */
const greatest = (
  m: readonly Float64Array[],
  random: Random,
): { readonly along: Float64Array; readonly by: number } => {
  let along = Float64Array.from(m, () => random.normal());
  let by = 0;
  for (let iteration = 0; iteration < ITERATIONS; iteration++) {
    const next = Float64Array.from(m, (row) => row.reduce((sum, v, j) => sum + v * (along[j] as number), 0));
    by = Math.hypot(...next);
    if (!(by > 0)) return { along, by: 0 };
    along = next.map((v) => v / by);
  }
  return { along, by };
};

/**
 * The arrangement whose distances come nearest to the shortest ways along the readings: far apart stays far apart, so
 * that nothing is folded over, though all is drawn out a little (classical scaling: Torgerson 1952; by shortest ways:
 * Shang, Ruml, Zhang & Fromherz 2003; both from memory). Null where distances do not tie all features together.
 */
export const classicalScaling = (sketch: Sketch, random: Random): Float64Array | null => {
  const ways = shortestWays(sketch);
  if (ways === null) return null;
  const n = ways.length;
  const means = ways.map((row) => row.reduce((sum, v) => sum + v * v, 0) / n);
  const mean = means.reduce((a, b) => a + b, 0) / n;
  const b = ways.map((row, i) =>
    Float64Array.from(row, (v, j) => ((means[i] as number) + (means[j] as number) - mean - v * v) / 2),
  );
  const first = greatest(b, random);
  const rest = b.map((row, i) =>
    Float64Array.from(row, (v, j) => v - first.by * (first.along[i] as number) * (first.along[j] as number)),
  );
  const second = greatest(rest, random);
  const x = blankOf(sketch);
  for (let f = 0; f < n; f++)
    setPoint(sketch, x, f, {
      x: Math.sqrt(first.by) * (first.along[f] as number),
      y: Math.sqrt(second.by) * (second.along[f] as number),
    });
  return x;
};
