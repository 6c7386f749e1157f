import type { SymmetricMatrix } from '../sparse/factor.js';
import { type Linearised, type System, type Term, normalMatrix } from './system.js';

/**
 * Slopes that change by more than this share over a step: the step is too long for the curvature, or crosses a kink.
 */
const TURN = 0.05;
/**
 * Step of the differences against the spread of an observation's numbers, and how far it is shortened before a jump
 * counts as a kink.
 */
const STEP = 1e-5;
const SHORTEST = 1e-10;

/**
 * Second slopes of one observation by its unknown k, against all its unknowns; zero across a kink. `at` is left as it
 * was.
 */
const secondSlopes = (o: Term, at: Float64Array, k: number, spread: number): Float64Array => {
  const u = o.unknowns[k] as number;
  const kept = at[u] as number;
  const n = o.unknowns.length;
  for (let step = STEP; step > SHORTEST; step /= 30) {
    const h = step * spread;
    at[u] = kept + h;
    o.model(at, up);
    at[u] = kept - h;
    o.model(at, down);
    at[u] = kept;
    let steepest = 0;
    let turn = 0;
    for (let b = 0; b < n; b++) {
      steepest = Math.max(steepest, Math.abs(up[b] as number), Math.abs(down[b] as number));
      turn = Math.max(turn, Math.abs((up[b] as number) - (down[b] as number)));
    }
    if (turn <= TURN * steepest)
      return Float64Array.from({ length: n }, (_, b) => ((up[b] as number) - (down[b] as number)) / (2 * h));
  }
  return new Float64Array(n);
};

const up = new Float64Array(64);
const down = new Float64Array(64);

/**
 * Half the Hessian of χ²: the normal matrix less Σ residual · second derivatives, these by central differences of the
 * analytic gradients. Where readings disagree much, or a start lies on a ridge, it tells a minimum from a saddle; the
 * normal matrix cannot.
 */
export const curvatureMatrix = (
  system: System,
  x: Float64Array,
  { slopes, weightedResiduals }: Linearised,
  scales: Float64Array,
): SymmetricMatrix => {
  const normal = normalMatrix(system, slopes, scales);
  const { diagonal, lower } = normal;
  const at = Float64Array.from(x);
  let next = 0;
  for (const [i, o] of system.observations.entries()) {
    const n = o.unknowns.length;
    const first = next;
    next += (n * (n + 1)) / 2;
    const weight = (weightedResiduals[i] as number) / o.sigma;
    if (weight === 0) continue;
    const here = o.unknowns.map((u) => x[u] as number);
    const spread = Math.max(...here) - Math.min(...here);
    const second = o.unknowns.map((_, k) => secondSlopes(o, at, k, spread > 0 ? spread : 1));
    let p = first;
    for (const [a, u] of o.unknowns.entries()) {
      for (const [b, v] of o.unknowns.slice(0, a + 1).entries()) {
        const mixed = ((second[a]?.[b] ?? 0) + (second[b]?.[a] ?? 0)) / 2;
        const off = weight * mixed * (scales[u] as number) * (scales[v] as number);
        const place = system.places[p++] as number;
        if (place < 0) diagonal[~place] = (diagonal[~place] as number) - off;
        else lower[place] = (lower[place] as number) - off;
      }
    }
  }
  return normal;
};
