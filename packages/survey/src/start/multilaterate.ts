import { FAST, FAST_SPREAD, type Growth, empty, place, readyTies } from './growth.js';
import { seedsOf } from './grow.js';
import { placements } from './place.js';
import type { Sketch } from './sketch.js';

/** A place that fits so much worse than the best (squares of sigmas) is out of the question. */
const PLAINLY_WORSE = 25;

/**
 * One arrangement, each centre put where the readings from those that stand cross: first those that three and more
 * readings hold in one place only, and where there is none, the best place of the one that most hold. Takes time in
 * proportion to the readings, nearly; right where a face is read densely (trilateration graphs: Aspnes, Eren,
 * Goldenberg et al. 2006, A theory of network localization, from memory). Null where readings of one kind or another do
 * not hold every centre, or the bench holds some.
 */
export const multilaterate = (sketch: Sketch): Float64Array | null => {
  if (sketch.network.bench) return null;
  const [seed] = seedsOf(sketch);
  if (seed === undefined) return null;
  const [a, b, length] = seed;
  const g: Growth = empty(sketch);
  place(sketch, g, a, { at: { x: 0, y: 0 }, cost: 0, spread: 0 });
  place(sketch, g, b, { at: { x: length, y: 0 }, cost: 0, spread: 0 });
  const waiting = new Set([...sketch.slots.keys()].filter((f) => g.placed[f] === 0 && (g.ready[f] ?? 0) > 0));
  for (let stand = 2; stand < sketch.slots.length; stand++) {
    let next = -1;
    let rank = -1;
    for (const f of waiting) {
      const ready = g.ready[f] ?? 0;
      if (ready < 2) continue;
      const [first, second] = (g.options[f] ??= placements(g, readyTies(sketch, g, f), f));
      if (first === undefined) continue;
      const sure = second === undefined || second.cost > first.cost + PLAINLY_WORSE;
      const here = (sure && ready >= FAST ? 1e3 : 0) + ready;
      if (here > rank) [next, rank] = [f, here];
    }
    const options = g.options[next] ?? [];
    const [best] = options;
    if (best === undefined) return null;
    const fast = (g.ready[next] ?? 0) >= FAST;
    place(sketch, g, next, { ...best, spread: fast ? Math.min(best.spread, FAST_SPREAD * sketch.blur) : best.spread });
    waiting.delete(next);
    for (const t of sketch.tiesOf[next] ?? [])
      for (const e of sketch.ties[t]?.ends ?? []) if (g.placed[e] === 0 && (g.ready[e] ?? 0) > 0) waiting.add(e);
  }
  return g.x;
};
