import type { Group } from '../groups/group.js';
import { centreOf } from '../groups/group.js';
import type { Measured } from '../measured.js';
import type { LevelName } from '../types.js';
import { type Settled, allFree } from './quantise.js';
import { type Ref, turns, valueOf } from './sizes.js';
import { type Drawing, SAME, centred, drawingOf, speaks, standing } from './standing.js';
import { type Composition, type Weighed, construct, unitsIn } from './weigh.js';

const oddsOf = (some: readonly Weighed[]): number => some.reduce((s, w) => s + w.odds, 0);

/** The answer most of the odds agree on, and those that give it. */
const mostly = (some: readonly Weighed[], answer: (w: Weighed) => string): readonly [string, readonly Weighed[]] => {
  const by = new Map<string, Weighed[]>();
  for (const w of some) {
    const key = answer(w);
    const already = by.get(key);
    if (already === undefined) by.set(key, [w]);
    else already.push(w);
  }
  return [...by].sort((a, b) => oddsOf(b[1]) - oddsOf(a[1]))[0] ?? ['', []];
};

/** The drawing of the deepest level that is sure, and the odds of every level of the likeliest drawing. */
interface Deepest {
  readonly levels: readonly { readonly level: LevelName; readonly odds: number }[];
  /** Null where not even the divisions are sure. */
  readonly taken: {
    readonly level: LevelName;
    readonly odds: number;
    readonly groups: readonly Group[];
    readonly way: Settled;
    readonly covered: ReadonlySet<Weighed>;
  } | null;
}

/** Fewest members that a group keeps, of all its own, when those that are in doubt are left out. */
const LEAST_KEPT = 0.6;

/**
 * How far down the likeliest drawing is sure: its divisions and which of them are taken, the centre that they are
 * about, its symmetry, its sizes, their system. A level's odds are those of every hypothesis that draws it so, whatever
 * it says of the next. Holes in doubt are left out of their group, and groups in doubt out of the drawing.
 */
export const deepest = (measured: Measured, all: readonly Weighed[], sure: number): Deepest => {
  const odds = new Map<Composition, number>();
  for (const w of all) odds.set(w.composition, (odds.get(w.composition) ?? 0) + w.odds);
  const base = [...odds].reduce<readonly [Composition | null, number]>((a, b) => (b[1] > a[1] ? b : a), [null, 0])[0];
  if (base === null) return { levels: [], taken: null };
  const near = SAME * measured.extent;
  const drawings = new Map<Composition, Drawing>();
  for (const { composition } of all) if (!drawings.has(composition)) drawings.set(composition, drawingOf(composition));
  const drawing = (w: Weighed): Drawing => drawings.get(w.composition) as Drawing;
  type Kept = readonly (readonly number[])[];
  const agrees = (kept: Kept, d: Drawing): boolean =>
    base.groups.every((g, i) => {
      const some = kept[i] ?? [];
      if (some.length === 0) return true;
      const stands = standing(g, some, d, near);
      return stands !== null && (speaks(g, some.length) || centred(g, stands, d, measured, near));
    });
  const divided = (kept: Kept): readonly Weighed[] => {
    const known = new Map<Composition, boolean>();
    return all.filter((w) => {
      const before = known.get(w.composition);
      const now = before ?? agrees(kept, drawing(w));
      if (before === undefined) known.set(w.composition, now);
      return now;
    });
  };
  let kept: Kept = base.groups.map((g) => g.members.map((_, k) => k));
  let some = divided(kept);
  while (oddsOf(some) < sure) {
    const fewer = kept.flatMap((members, i): readonly Kept[] => {
      const group = base.groups[i];
      const regular = group?.kind === 'divided' || group?.kind === 'array' || group?.kind === 'grid';
      const least = Math.max(3, Math.ceil(LEAST_KEPT * (group?.members.length ?? 0)));
      return [
        ...(regular && members.length > least
          ? members.map((m) =>
              kept.with(
                i,
                members.filter((k) => k !== m),
              ),
            )
          : []),
        ...(members.length > 0 && kept.filter((k) => k.length > 0).length > 1 ? [kept.with(i, [])] : []),
      ];
    });
    const [next] = fewer
      .map((k) => ({ k, agree: divided(k) }))
      .sort((a, b) => oddsOf(b.agree) - oddsOf(a.agree) || b.k.flat().length - a.k.flat().length);
    if (next === undefined || oddsOf(next.agree) <= oddsOf(some)) break;
    kept = next.k;
    some = next.agree;
  }
  const left = base.groups.flatMap((_, i) => ((kept[i] ?? []).length > 0 ? [i] : []));
  const about = some.filter((w) =>
    left.every((i) => {
      const group = base.groups[i] as Group;
      const stands = standing(group, kept[i] ?? [], drawing(w), near);
      return stands !== null && centred(group, stands, drawing(w), measured, near);
    }),
  );
  const square = about.filter((w) =>
    left.every((i) => {
      const group = base.groups[i];
      return (
        group?.kind !== 'array' || !group.square || standing(group, kept[i] ?? [], drawing(w), near)?.square === true
      );
    }),
  );
  const [turned, symmetrical] = mostly(square, (w) => turns(base, w));
  const refs = left.flatMap((group) => {
    const { sizes, offset } = base.drawn[group] ?? { sizes: [], offset: null };
    return [
      ...sizes.map((_, which): Ref => ({ group, what: 'sizes', which })),
      ...(offset ?? []).map((_, which): Ref => ({ group, what: 'offset', which })),
    ];
  });
  // Sizes one by one, the surest first: what is sure of them is taken though another is not.
  const values = new Map<Ref, string>();
  const surely = new Map<Ref, string>();
  let sized: readonly Weighed[] = symmetrical;
  let held: readonly Weighed[] = symmetrical;
  while (values.size < refs.length) {
    const [next] = refs
      .filter((r) => !values.has(r))
      .map((ref) => ({ ref, most: mostly(sized, (w) => valueOf(ref, base, w)) }))
      .sort((a, b) => oddsOf(b.most[1]) - oddsOf(a.most[1]));
    if (next === undefined) break;
    const [value, agree] = next.most;
    values.set(next.ref, value);
    sized = agree;
    if (oddsOf(agree) >= sure && value !== 'other') {
      surely.set(next.ref, value);
      held = agree;
    }
  }
  const system = Math.max(
    ...(['in', 'mm', 'mixed', 'none'] as const).map((unit) => sized.reduce((s, w) => s + w.odds * unitsIn(w)[unit], 0)),
    0,
  );
  const levels = [
    { level: 'divisions', odds: oddsOf(some) },
    { level: 'centre', odds: oddsOf(about) },
    { level: 'symmetry', odds: oddsOf(symmetrical) },
    { level: 'size', odds: oddsOf(sized) },
    { level: 'system', odds: system },
  ] as const;
  if (oddsOf(some) < sure || left.length === 0) return { levels, taken: null };
  const reached = levels.findLastIndex((_, k) => levels.slice(0, k + 1).every((m) => m.odds >= sure));
  const level = levels[reached]?.level ?? 'divisions';
  const covered = reached >= 2 ? held : reached === 1 ? about : some;
  const groups = left.map((i) => relaxed(base, i, kept[i] ?? [], reached, measured, near));
  const { drawn, construction } = construct(measured, groups);
  const settled: (number | null)[] = construction.quantities.map(() => null);
  const unitOf: ('in' | 'mm' | null)[] = construction.quantities.map(() => null);
  const [likely] = [...covered].filter((w) => w.composition === base).sort((a, b) => b.odds - a.odds);
  if (likely !== undefined && reached >= 2) {
    for (const [k, i] of left.entries()) {
      const [mine, was] = [drawn[k], base.drawn[i]];
      const hold = (to: number | null | undefined, from: number | null | undefined): void => {
        if (to === null || to === undefined || from === null || from === undefined) return;
        settled[to] = likely.way.values[from] ?? null;
        unitOf[to] = likely.way.unitOf[from] ?? null;
      };
      if (turned !== '') hold(mine?.direction, was?.direction);
      for (const ref of surely.keys())
        if (ref.group === i) hold(mine?.[ref.what]?.[ref.which], was?.[ref.what]?.[ref.which]);
    }
  }
  return {
    levels,
    taken: {
      level,
      odds: oddsOf(covered),
      groups,
      way: { ...allFree, values: settled, unitOf },
      covered: new Set(covered),
    },
  };
};

/**
 * One group of the likeliest drawing with the members that are sure, about a centre of its own where the centre is not.
 */
const relaxed = (
  base: Composition,
  i: number,
  kept: readonly number[],
  reached: number,
  measured: Measured,
  near: number,
): Group => {
  const group = base.groups[i] as Group;
  const members = kept.map((k) => group.members[k] ?? -1);
  const stands = standing(group, kept, drawingOf(base), near);
  const own =
    reached < 1 && 'feature' in group.about && speaks(group, kept.length)
      ? { own: stands?.centre ?? centreOf(group.about, measured) }
      : group.about;
  switch (group.kind) {
    case 'divided':
      return { ...group, members, about: own, places: kept.map((k) => group.places[k] ?? 0) };
    case 'circle':
      return { ...group, members, about: own, headings: kept.map((k) => group.headings[k] ?? 0) };
    case 'array':
      return {
        ...group,
        members,
        about: own,
        square: group.square && reached >= 2,
        places: kept.map((k) => group.places[k] ?? ([0, 0] as const)),
      };
    case 'grid':
      return { ...group, members, steps: kept.map((k) => group.steps[k] ?? ([0, 0] as const)) };
    default:
      return group;
  }
};
