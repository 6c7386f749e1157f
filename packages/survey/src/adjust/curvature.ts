import type { SymmetricMatrix } from '../sparse/factor.js';
import { type Linearised, type System, normalMatrix } from './system.js';

/** Slopes of smooth models change by a hundred-thousandth or so over a step of that share of their size. */
const FOLD = 0.05;

/**
 * Half the Hessian of χ²: the normal matrix less Σ misfit · second slopes, these by central differences of the hand-written slopes.
 * Where readings disagree much, or a start lies on a ridge, it tells a minimum from a saddle, which the normal matrix cannot.
 */
export const curvatureMatrix = (system: System, x: Float64Array, { slopes, misfits }: Linearised, scales: Float64Array): SymmetricMatrix => {
  const normal = normalMatrix(system, slopes, scales);
  const { diagonal, lower } = normal;
  const at = Float64Array.from(x);
  const up = new Float64Array(64);
  const down = new Float64Array(64);
  let next = 0;
  for (const [i, o] of system.observations.entries()) {
    const n = o.unknowns.length;
    const first = next;
    next += (n * (n + 1)) / 2;
    const weight = (misfits[i] as number) / o.sigma;
    if (weight === 0) continue;
    const here = o.unknowns.map((u) => x[u] as number);
    o.model(x, up);
    const steepest = Math.max(...up.subarray(0, n).map(Math.abs));
    const spread = Math.max(...here) - Math.min(...here);
    const h = 1e-5 * (spread > 0 ? spread : 1);
    const second: Float64Array[] = o.unknowns.map((u) => {
      const kept = at[u] as number;
      at[u] = kept + h;
      o.model(at, up);
      at[u] = kept - h;
      o.model(at, down);
      at[u] = kept;
      const change = Float64Array.from({ length: n }, (_, b) => (up[b] as number) - (down[b] as number));
      // A jump is a fold of the model between the two places: there is no second slope across it.
      return change.some((c) => Math.abs(c) > FOLD * steepest) ? change.fill(0) : change.map((c) => c / (2 * h));
    });
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
