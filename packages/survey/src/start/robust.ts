import type { System } from '../adjust/system.js';
import { overlapsAt } from '../arrangements/overlaps.js';
import { weightOf } from '../arrangements/telling.js';
import type { Network } from '../network/network.js';
import { atClocks } from './beginnings.js';
import { grow } from './grow.js';
import { arrangementsBeside } from './bilateration.js';
import { otherPlaces } from './reseat.js';
import { type Sketch, setPoint, strain2 } from './sketch.js';
import { restIsSound } from './sound.js';
import { SLIP_COST, type Truncated, fewestLeftOut, truncated } from './truncated.js';

/** Features tried in their other places, seeds grown from, and how many of what is grown from each. */
const MOST = { features: 40, places: 24, seeds: 4, grown: 4, growable: 40, refined: 4 } as const;
/** A place may promise so much more than the present one: all the rest has still to follow. */
const OVER = 40;
const ROUNDS = 4;

/** The ties of one feature, each counted no more than a slip. */
const strainAt = (sketch: Sketch, x: Float64Array, f: number): number =>
  (sketch.tiesOf[f] ?? []).reduce((sum, t) => {
    const tie = sketch.ties[t];
    return tie === undefined ? sum : sum + Math.min(strain2(tie, x), SLIP_COST);
  }, 0);

/** Other places of single features that promise most, by readings counted no more than a slip each. */
const promising = (sketch: Sketch, from: Truncated): readonly Float64Array[] =>
  [...sketch.slots.keys()]
    .slice(0, MOST.features)
    .flatMap((f) => {
      const now = strainAt(sketch, from.x, f);
      return otherPlaces(sketch, from.x, f).map((at) => {
        const x = Float64Array.from(from.x);
        setPoint(sketch, x, f, at);
        return { x, more: strainAt(sketch, x, f) - now };
      });
    })
    .filter((p) => p.more < OVER)
    .sort((a, b) => a.more - b.more)
    .slice(0, MOST.places)
    .map((p) => p.x);

/** Whether the readings that take part leave this arrangement alone, and no solids overlap in it. */
const isOnlyOne = (sketch: Sketch, { x, active }: Truncated): boolean => {
  const { network } = sketch;
  const out = new Set(network.observations.filter((_, i) => active[i] === false));
  const ties = sketch.ties.filter((tie) => tie.observations.every((o) => !out.has(o)));
  return overlapsAt(network, x).length === 0 && arrangementsBeside({ ...sketch, ties }, x)?.length === 1;
};

/**
 * Arrangements that all but a few readings fit, that with the least against it first. A gross error folds the shape
 * that fits all readings best, and sound readings then seem wrong; so each start (what was found, the clocks, what is
 * grown from single readings) is adjusted with readings that count no more than a slip, and single features are tried
 * in their other places the same way.
 */
export const robustStarts = (
  network: Network,
  system: System,
  sketch: Sketch,
  found: readonly Float64Array[],
): readonly Truncated[] => {
  const weigh = (t: Truncated): number => weightOf(network, t.cost, t.x);
  const checked = network.observations.length - network.unknowns.count > sketch.slots.length;
  const clocked = sketch.clocks.filter((c) => c !== null).length >= 3;
  const few = sketch.slots.length <= MOST.growable;
  const at = found.map((x) => truncated(system, x));
  // Readings that check each other well, and leave no other arrangement once a few are out, need no other start.
  const plain = checked ? at.filter((t) => restIsSound(system, t) && isOnlyOne(sketch, t)) : [];
  if (plain.length > 0) return plain.toSorted((a, b) => weigh(a) - weigh(b));
  const starts = [
    ...(clocked && few ? [atClocks(sketch, null)] : []),
    ...(few
      ? Array.from({ length: MOST.seeds }, (_, seed) => grow(sketch, system, seed, 16).slice(0, MOST.grown)).flat()
      : []),
  ];
  const ends = [...at, ...starts.map((x) => truncated(system, x))];
  let best = ends.reduce((a, b) => (weigh(b) < weigh(a) ? b : a));
  for (let round = few ? 0 : ROUNDS; round < ROUNDS; round++) {
    const next = promising(sketch, best)
      .map((x) => truncated(system, x))
      .reduce<Truncated | null>((a, b) => (a !== null && weigh(a) <= weigh(b) ? a : b), null);
    if (next === null) break;
    ends.push(next);
    if (weigh(next) >= weigh(best) - 1e-6) break;
    best = next;
  }
  const sorted = ends.toSorted((a, b) => weigh(a) - weigh(b));
  if (!few) return sorted;
  // Where an arrangement is right its own best end may yet leave out too many, and fall behind for it.
  const refined = [...new Set([...at, ...ends.slice(at.length, at.length + 1), ...sorted.slice(0, MOST.refined)])];
  return [...refined.map((t) => fewestLeftOut(system, t)), ...sorted].toSorted((a, b) => weigh(a) - weigh(b));
};
