/*
 * The problem of this folder. Readings between features are a network of distances, angles and offsets; χ², as a
 * function of where the centres lie, has many minima, and the adjustment finds only the one that it begins above. What
 * is wanted is the global minimum (in the literature: localisation of a sensor network, or distance geometry), and all
 * others that fit about as well. It is NP-hard in general (Saxe 1979); shop faces are small, and rich enough in
 * readings, for the steps below, all named from memory.
 *
 *   multilaterate, grow,          multilateration: a centre placed where what its readings allow crosses (trilateration graphs: Aspnes, Eren,
 *   growth, place, loci           Goldenberg et al. 2006); several arrangements side by side (a beam search) where it may lie in two places
 *   classical-scaling             classical scaling of shortest paths (Torgerson 1952; MDS-MAP: Shang, Ruml, Zhang & Fromherz 2003)
 *   relaxed-dimension, perturb,   one dimension more, then taken away by a growing penalty (Crippen & Havel 1988): a part that is reflected
 *   spatial-terms                 in the plane turns back through space. The spatial terms are the readings as distances there
 *   separation-pairs,             partial reflections: of a part about two features that alone hold it (a separation pair), about these and
 *   partial-reflections,          one reading more, and about a line on which, nearly, all that holds it lies (Hendrickson 1992, Conditions
 *   near-lines, reflect-part      for unique graph realizations)
 *   reseat, foresight             single centres in the other places that their readings allow; what each promises, by updating the
 *                                 factored normal equations (Woodbury 1950)
 *   bilateration                  all arrangements that the distances leave, where these can be counted (Fang, Cao, Morse & Anderson 2009)
 *   levenberg-marquardt,          damped Gauss–Newton (Levenberg 1944, Marquardt 1963); truncated least squares by graduated non-convexity
 *   truncated, robust             (Black & Rangarajan 1996), for readings of which some are wrong
 *   parts                         what no reading ties together, each looked for by itself
 *   search, steps, basin,         the order in which these are tried, and when enough is enough: counted in steps, never in time
 *   judgement, sound
 */
import type { Point } from '@fayplate/core';
import { adjust } from '../adjust/adjust.js';
import { type System, chi2At, isSpent, systemOf, within } from '../adjust/system.js';
import { clockCost, overlapsAt } from '../arrangements/overlaps.js';
import { weightOf } from '../arrangements/telling.js';
import { isSameShape, mirrorImage } from '../frame/hand.js';
import type { Network } from '../network/network.js';
import { jointReflectionsOf } from './partial-reflections.js';
import { type SeparationPair, separationPairsOf, reflectIn } from './separation-pairs.js';
import { type Start, partsOf, startOfParts } from './parts.js';
import { rivalsOf } from './reseat.js';
import { arrangementsBeside, onTable } from './bilateration.js';
import { robustStarts } from './robust.js';
import { type Found, search } from './search.js';
import { blankOf, setPoint, sketchOf } from './sketch.js';
import { type LocalMinimum, levenbergMarquardt } from './levenberg-marquardt.js';
import { soundLimit } from './sound.js';

/** Beside the likeliest arrangement others are kept that have no more than this against them beyond it. */
const IN_REACH = 16;
/**
 * What each stage may take, in products (some three seconds for the first, one for each other): the search itself;
 * bringing what it ended at to rest; other arrangements that the readings support as well; arrangements that all but a
 * few readings fit. As a rule they end long before.
 */
const BUDGET = { search: 1.4e9, rest: 0.4e9, beside: 0.6e9, despite: 0.6e9 } as const;
/**
 * Of a face that does not hang together a part may take as much of it as it has of the features, and at least this
 * share.
 */
const LEAST_SHARE = 0.05;
/** So many arrangements are looked into at most, and handed on. */
const MOST = { looked: 40, kept: 5 } as const;

/** An arrangement, what stands against it, and the observations that do not fit it. */
interface Weighed extends LocalMinimum {
  readonly weight: number;
  readonly left: readonly number[];
}

const weighed = (network: Network, { x, chi2 }: LocalMinimum): Weighed => ({
  x,
  chi2,
  weight: weightOf(network, chi2, x),
  left: [],
});

/**
 * More than this that the clocks have against an arrangement calls for another that a misread reading may have hidden.
 */
const DOUBTFUL_CLOCKS = 7;

/**
 * Whether the readings, the clocks or solids that overlap count so much against what was found that a gross error may
 * have folded it.
 */
const isDoubtful = (network: Network, found: LocalMinimum): boolean =>
  found.chi2 > soundLimit(systemOf(network), found.x) ||
  (isLean(network) && clockCost(network, found.x) > DOUBTFUL_CLOCKS) ||
  overlapsAt(network, found.x).length > 0;

/** Too few readings to spare to keep a slip from hiding in a folded shape. */
const isLean = ({ observations, unknowns }: Network): boolean =>
  observations.length - unknowns.count <= unknowns.features.size;

/** Arrangements that all but a few readings fit, from those found and from the clocks. */
const despiteSlips = (network: Network, found: readonly LocalMinimum[]): readonly Weighed[] =>
  robustStarts(
    network,
    systemOf(network),
    sketchOf(network),
    found.map((s) => s.x),
  ).map(({ x, chi2, cost, active }) => ({
    x,
    chi2,
    weight: weightOf(network, cost, x),
    left: active.flatMap((on, i) => (on ? [] : [i])),
  }));

/**
 * Groups that the readings allow on either side of a separation pair, reflected to the side that has least against it;
 * then each reflected alone.
 */
const besideSeparationPairs = (network: Network, found: Weighed): readonly Weighed[] => {
  const sketch = sketchOf(network);
  const pairs = separationPairsOf(sketch);
  const { meter } = systemOf(network);
  const over = (x: Float64Array, pair: SeparationPair): Weighed => {
    meter.spent += LOOK * sketch.slots.length ** 2;
    return weighed(network, { x: reflectIn(sketch, x, pair), chi2: found.chi2 });
  };
  let best = found;
  for (let turned = true; turned;) {
    turned = false;
    for (const pair of pairs) {
      if (isSpent(meter)) break;
      const other = over(best.x, pair);
      if (other.weight >= best.weight - SAME_WEIGHT) continue;
      best = other;
      turned = true;
    }
  }
  return [best, ...pairs.flatMap((pair) => (isSpent(meter) ? [] : [over(best.x, pair)]))];
};

/** Products that a look at two features takes, whether they overlap. */
const LOOK = 2;

/** Less is no difference between what stands against two arrangements. */
const SAME_WEIGHT = 1e-6;

/**
 * The arrangements that the readings all but allow beside the one found, where they could not be counted: single
 * features moved, parts reflected.
 */
const besideMoves = (network: Network, found: LocalMinimum): readonly Weighed[] => {
  const equations = systemOf(network);
  const sketch = sketchOf(network);
  const moved = rivalsOf(sketch, equations, jointReflectionsOf(sketch), found, () => false);
  const best = moved.map((s) => weighed(network, s)).reduce((a, b) => (b.weight < a.weight ? b : a));
  return [...besideSeparationPairs(network, best), ...moved.map((s) => weighed(network, s))];
};

/** The arrangements counted, adjusted, those that promise most first. */
const besideCounted = (network: Network, found: LocalMinimum, counted: readonly Float64Array[]): readonly Weighed[] => {
  const equations = systemOf(network);
  const rough = counted
    .map((x) => ({ x, promise: Math.min(chi2At(equations, x, []), 1e4) + clockCost(network, x) }))
    .sort((a, b) => a.promise - b.promise);
  return [found, ...rough.slice(0, MOST.looked).map(({ x }) => levenbergMarquardt(equations, x, 25))].map((s) =>
    weighed(network, s),
  );
};

/** Of the readings so many may be slips at most; where more do not fit, no shape was found. */
const MOST_SLIPS = 1 / 3;

/** A search that ended at its budget, brought to rest: sound readings that leave one arrangement need no more. */
const brought = (system: System, found: Found): Found => {
  if (!found.spent) return found;
  const end = levenbergMarquardt(system, found.x, 12);
  if (end.chi2 > soundLimit(system, end.x)) return { ...found, ...end };
  const beside = arrangementsBeside(sketchOf(system.network), end.x);
  return { ...found, ...end, beside, spent: beside === null };
};

/**
 * Where the adjustment begins: the arrangement that has least against it, then its rivals. The readings alone make the
 * arrangements (see
 * `search`); their χ², solids that would overlap and clocks weigh them against each other.
 */
export const startPositions = (network: Network, progress?: (done: number, of: number) => void): readonly Start[] => {
  if (network.unknowns.features.size === 0)
    return [{ values: new Float64Array(network.unknowns.count), from: 'nothing' }];
  const parts = partsOf(network);
  if (parts.length === 1) return startOf(network, { share: 1, rivals: true }, progress);
  let done = 0;
  return startOfParts(network, parts, (part, rivals) => {
    const share = part.unknowns.features.size / network.unknowns.features.size;
    const starts = startOf(part, { share: rivals ? 1 : Math.max(share, LEAST_SHARE), rivals }, (so, of) =>
      progress?.(done + (so / of) * share, 1),
    );
    done += share;
    // Far parts make the fit of all slow to come to rest: each is brought to rest by itself.
    return starts.map((start) => ({ ...start, values: adjust(part, start.values).values }));
  });
};

/**
 * The same for a face that hangs together, which may take a `share` of what all may; `rivals`: whether other
 * arrangements are wanted.
 */
const startOf = (
  network: Network,
  { share, rivals }: { readonly share: number; readonly rivals: boolean },
  progress?: (done: number, of: number) => void,
): readonly Start[] => {
  const system = systemOf(network);
  const { meter } = system;
  const first = within(meter, share * BUDGET.search, () => search(network, progress, { first: !rivals }));
  const found = within(meter, share * BUDGET.rest, () => brought(system, first));
  progress?.(1, 1);
  const { beside, from } = found;
  const doubtful = isDoubtful(network, found);
  if (beside !== null && beside.length < 2 && !doubtful)
    return [{ values: found.x, from, alone: onTable(sketchOf(network)).size > 1 }];
  const alike = within(meter, share * BUDGET.beside, () => {
    if (found.despite || !rivals) return [weighed(network, found)];
    return beside === null ? besideMoves(network, found) : besideCounted(network, found, beside);
  });
  const all = doubtful
    ? within(meter, share * BUDGET.despite, () => despiteSlips(network, alike.slice(0, MOST.kept)))
    : alike;
  const sorted = [...all].sort((a, b) => a.weight - b.weight);
  const limit = (sorted[0]?.weight ?? 0) + IN_REACH;
  const kept: Weighed[] = [];
  for (const one of sorted) {
    if (one.weight > limit || kept.length > MOST.kept) break;
    if (kept.every((k) => !isSameShape(network, k.x, one.x) && !isSameShape(network, mirrorImage(network, k.x), one.x)))
      kept.push(one);
  }
  // Where all but a few readings fit, it is these that were misread: there is nothing more to look for.
  const out = kept[0]?.left.length ?? 0;
  const unfinished = found.spent && (out === 0 || out > MOST_SLIPS * network.observations.length);
  return kept.map(({ x, weight, left }) => ({ values: x, from, weight, left, unfinished }));
};

/** The start at places that are known; features not among them lie at the origin. */
export const startAt = (network: Network, places: ReadonlyMap<string, Point>): Start => {
  const sketch = sketchOf(network);
  const values = blankOf(sketch);
  for (const [f, { id }] of sketch.slots.entries()) setPoint(sketch, values, f, places.get(id) ?? { x: 0, y: 0 });
  return { values, from: 'places that are known' };
};
