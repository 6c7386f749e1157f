import { type Drill, drills } from './list.js';

/** A drill, and how much larger it is than what was wanted, mm. */
export interface NearestDrill<D> {
  readonly drill: D;
  readonly error: number;
}

/** Whether the drill may lie on either side of the size wanted, or must be at least or at most it. */
export type Bound = 'either' | 'at least' | 'at most';

/**
 * The drill nearest to `mm`, of those on hand (default: all of the tables); of two equally near the smaller, since a hole
 * is easier eased than filled. Null where none meets the bound.
 */
export function nearestDrill(mm: number): NearestDrill<Drill>;
export function nearestDrill<D extends { readonly diameter: number }>(
  mm: number,
  onHand: readonly D[],
  bound?: Bound,
): NearestDrill<D> | null;
export function nearestDrill(
  mm: number,
  onHand: readonly { readonly diameter: number }[] = drills(),
  bound: Bound = 'either',
): unknown {
  const within = 1e-6;
  let best: NearestDrill<{ readonly diameter: number }> | null = null;
  for (const drill of onHand) {
    const error = drill.diameter - mm;
    if ((bound === 'at least' && error < -within) || (bound === 'at most' && error > within)) continue;
    const nearer = best === null ? Infinity : Math.abs(best.error) - Math.abs(error);
    if (nearer > within || (nearer > -within && best !== null && drill.diameter < best.drill.diameter))
      best = { drill, error };
  }
  return best;
}
