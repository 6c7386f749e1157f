import { findMore, findPlaced, findSymmetries } from '../groups/find.js';
import { extended } from '../groups/grid.js';
import { type Group, laidBy } from '../groups/group.js';
import { quarter } from '../groups/near.js';
import { ringSets } from '../groups/rings.js';
import { type Informing, type Measured, informing } from '../measured.js';
import { MOST_GROUPS } from '../prior/structure.js';
import { cornersMoved, oneMoved } from './moved.js';
import { type Composition, type Drafted, draftOf, isDecided, mostOf, weigh } from './weigh.js';

/** Groups that lose this many nats against leaving their members anywhere cannot help a composition. */
const HOPELESS = -8;
/** Compositions this many nats behind the best are left out: e^−16 of its odds. */
const BEHIND = 16;
const MOST_ALONE = 40;
const MOST_TOGETHER = 24;
/** Compositions whose single features are looked at again, and those of which one hole may have moved. */
const MOST_GROWN = 3;
const MOST_MOVED = 3;

/**
 * Whether two groups can stand in one drawing: no feature laid out twice, none laid out that the other is measured
 * from, and one grid at most.
 */
const disjoint = (a: Group, b: Group): boolean => {
  if (a.kind === 'grid' && b.kind === 'grid') return false;
  const from = (g: Group): number => ('feature' in g.about ? g.about.feature : -1);
  return a.members.every((m) => !b.members.includes(m) && m !== from(b)) && !b.members.includes(from(a));
};

/** Sets of groups that share no feature, those first that gain most, each group by itself. */
const together = (alone: readonly Drafted[]): readonly (readonly Group[])[] => {
  const found: { readonly groups: readonly Group[]; readonly gain: number }[] = [];
  const grow = (groups: readonly Group[], gain: number, from: number): void => {
    if (groups.length >= 2) found.push({ groups, gain });
    if (groups.length === MOST_GROUPS || found.length > 5000) return;
    for (const [i, next] of alone.slice(from).entries()) {
      const [group] = next.groups;
      if (group !== undefined && groups.every((g) => disjoint(g, group)))
        grow([...groups, group], gain + next.base, from + i + 1);
    }
  };
  grow([], 0, 0);
  return found
    .sort((a, b) => b.gain - a.gain)
    .slice(0, MOST_TOGETHER)
    .map((f) => f.groups);
};

/** Weighs those that may come within reach of the best, best first. */
const best = (drafts: readonly Drafted[], already: readonly Composition[] = []): readonly Composition[] => {
  const weighed: Composition[] = [...already];
  let most = Math.max(...already.map((c) => c.log), Number.NEGATIVE_INFINITY);
  for (const d of [...drafts].sort((a, b) => mostOf(b) - mostOf(a))) {
    if (mostOf(d) < most - BEHIND) break;
    const c = weigh(d);
    weighed.push(c);
    most = Math.max(most, c.log);
  }
  return weighed.filter((c) => c.log > most - BEHIND).sort((a, b) => b.log - a.log);
};

/** Every composition worth weighing, best first. */
export const compose = (measured: Measured): readonly Composition[] => {
  const inform = informing(measured);
  const drafts = (groups: readonly Group[]): readonly Drafted[] =>
    groups.flatMap((group) => draftOf(measured, [group], inform) ?? []);
  const withMoved = (all: readonly Composition[]): readonly Composition[] =>
    best(
      [...all.slice(0, MOST_MOVED).flatMap((c) => oneMoved(measured, c, inform)), ...cornersMoved(measured, inform)],
      all,
    );
  const sets = ringSets(measured);
  const placed = drafts(findPlaced(measured, sets));
  const plain = best(placed);
  if (isDecided(plain[0], placed, measured)) return withMoved(plain);
  const alone = [...placed, ...drafts(findSymmetries(measured, sets))]
    .filter((d) => mostOf(d) >= HOPELESS)
    .sort((a, b) => b.base - a.base)
    .slice(0, MOST_ALONE);
  const first = best(alone);
  const joined = best(
    together(alone).flatMap((groups) => draftOf(measured, groups, inform) ?? []),
    first,
  );
  // The best group alone too: what stands beside it may have been crowded out of the pairs.
  const from = new Set([...joined.slice(0, MOST_GROWN), ...first.slice(0, 1)]);
  const grown = [...[...from].flatMap((c) => grow(measured, c, inform)), ...fromNothing(measured, joined, inform)];
  return withMoved(best(grown, joined));
};

/** The composition with its grid, where it has one, taking in single features that fall on it too. */
const widened = (measured: Measured, c: Drafted, singles: readonly number[], inform: Informing): readonly Drafted[] =>
  c.drawn.flatMap(({ group, bearing }, i) => {
    if (group.kind !== 'grid' || bearing === null) return [];
    const wider = extended(measured, group, c.adjusted.parameters[bearing.parameter] ?? group.axis, singles);
    return wider === null ? [] : (draftOf(measured, c.groups.with(i, wider), inform) ?? []);
  });

/** The composition with one more group among the features that it leaves single, or with its grid widened to them. */
const grow = (measured: Measured, c: Drafted, inform: Informing): readonly Drafted[] => {
  const laid = new Set(c.groups.flatMap((g) => laidBy(g, measured)));
  const singles = measured.fasteners.filter((f) => !laid.has(f));
  const wider = widened(measured, c, singles, inform);
  if (singles.length < 2 || c.groups.length === MOST_GROUPS) return wider;
  const headings = c.drawn.flatMap((d) =>
    d.bearing === null ? [] : halfSteps(c.adjusted.parameters[d.bearing.parameter] ?? 0, d.bearing.fold),
  );
  return [
    ...wider,
    ...findMore(measured, singles, headings).flatMap((g) =>
      c.groups.every((other) => disjoint(g, other)) ? (draftOf(measured, [...c.groups, g], inform) ?? []) : [],
    ),
  ];
};

/** What the whole face may be where nothing found so far lays out all but one of it. */
const fromNothing = (measured: Measured, found: readonly Drafted[], inform: Informing): readonly Drafted[] => {
  const laid = new Set(found[0]?.groups.flatMap((g) => laidBy(g, measured)));
  if (measured.fasteners.length - laid.size < 2) return [];
  return findMore(measured, measured.fasteners, []).flatMap((g) => draftOf(measured, [g], inform) ?? []);
};

/** Directions of the division lines and of the middles between them, within a quarter turn. */
const halfSteps = (heading: number, fold: number): readonly number[] => [
  ...new Set(Array.from({ length: 2 * fold }, (_, k) => Number(quarter(heading + (k * Math.PI) / fold).toFixed(9)))),
];
