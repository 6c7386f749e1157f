import { type Point, distance } from '@fayplate/core';
import type { Desk } from '../desk.js';
import type { Draft } from '../draft.js';
import { type Cut, liesWithin, mouthRadius, signedToSpine, spineDistance } from '../solids/cut.js';
import { sharedReach } from '../solids/gap.js';
import { thinnestAtRim, thinnestBetween, thinnestWithin } from '../solids/thinnest.js';
import type { PlateBore } from '../types.js';
import { fitsFor, leftOut, slimmer, threadsFor, tighter } from '../cures/fasteners.js';
import { dowelledInstead, extraMoved } from '../cures/locating.js';
import { bores } from '../cures/plate.js';
import { extraOf, holesOf, turnOf } from '../cures/about.js';
import { webLimit } from '../limits.js';
import { sayBoth, sayPlain, short } from '../words/say.js';
import { type CheckKind, type Found, failingAndLeast, found, marginOf } from './check.js';

/**
 * How two cuts must lie to each other, as bounds on the distance between their spines: at least `apart`, or, for a hole
 * that may lie wholly on the floor of a pocket, at most `within` between the hole's far end and the pocket's axis.
 */
export interface Pair {
  readonly a: Cut;
  readonly b: Cut;
  /** Sum of the radii where they are nearest; the web is the distance less this. */
  readonly reach: number;
  readonly limit: number;
  readonly source: string;
  /** The pocket (always `b`) leaves the hole this far from its axis; null where b is no pocket. */
  readonly within: number | null;
}

const isPocket = (cut: Cut, thickness: number): boolean =>
  cut.what !== 'hole' && cut.slices.every((s) => s.z1 - s.z0 < thickness - 1e-9);
/** Bores of which one lies wholly within the other, about one axis or not: one opening by design. */
const nested = (a: Cut, b: Cut): boolean =>
  a.what !== 'hole' && b.what !== 'hole' && (liesWithin(a, b) || liesWithin(b, a));

/** Radius of the hole where it comes out on the pocket's floor, on whichever side that is. */
const radiusAtFloor = (hole: Cut, pocket: Cut): number => {
  const fromA = pocket.slices.some((s) => s.z0 <= 1e-9);
  const z = fromA ? Math.min(...hole.slices.map((s) => s.z0)) : Math.max(...hole.slices.map((s) => s.z1));
  return mouthRadius(hole, z);
};

/** How two cuts must lie to each other; null where it does not matter (one opening by design, or no depth shared). */
const pairOf = (desk: Desk, one: Cut, other: Cut): Pair | null => {
  if (nested(one, other)) return null;
  const [a, b] = isPocket(one, desk.thickness) && other.what === 'hole' ? [other, one] : [one, other];
  const { value: limit, source } = webLimit(desk, [a, b]);
  if (a.what === 'hole' && isPocket(b, desk.thickness)) {
    const r = radiusAtFloor(a, b);
    const pocket = b.slices[0]?.r0 ?? 0;
    return { a, b, reach: sharedReach(a, b) ?? r + pocket, limit, source, within: pocket - r };
  }
  const reach = sharedReach(a, b);
  return reach === null ? null : { a, b, reach, limit, source, within: null };
};

/**
 * Distance from the pocket's axis to the far end of a hole; below zero by how far that lies within a pocket's own area.
 */
const farEnd = (pair: Pair): number => Math.max(...pair.a.spine.map((p) => signedToSpine(p, pair.b.spine)));

/** Metal left, mm, and its limit: a hole on a pocket's floor only has to keep off its wall. */
const webOf = (pair: Pair): { readonly web: number; readonly limit: number } => {
  const apart = spineDistance(pair.a.spine, pair.b.spine);
  if (pair.within !== null && apart < (pair.b.slices[0]?.r0 ?? 0)) return { web: pair.within - farEnd(pair), limit: 0 };
  return { web: apart - pair.reach, limit: pair.limit };
};

/** The thinnest metal: between two cuts, or between a hole on a pocket's floor and the pocket's wall. */
const between = (pair: Pair): Point => {
  const [pocket] = pair.b.spine;
  const wall = pair.b.slices[0]?.r0 ?? 0;
  if (pair.within === null || spineDistance(pair.a.spine, pair.b.spine) >= wall) return thinnestBetween(pair.a, pair.b);
  return pair.b.spine.length > 2 ? pair.a.spine[0] : thinnestWithin(pair.a.spine, wall - pair.within, pocket, wall);
};

export const pairsOf = (desk: Desk, cuts: readonly Cut[]): readonly Pair[] =>
  cuts.flatMap((a, i) => cuts.slice(i + 1).flatMap((b) => pairOf(desk, a, b) ?? []));

/** Every pair that fails, and for each cut the neighbour with least to spare. */
const webs = (draft: Draft): readonly Found[] => {
  const pairs = pairsOf(draft.desk, draft.cuts).map((pair) => ({ pair, ...webOf(pair) }));
  type Webbed = (typeof pairs)[number];
  const nearest = new Map<Cut, Webbed>();
  for (const p of pairs) {
    for (const cut of [p.pair.a, p.pair.b]) {
      const known = nearest.get(cut);
      if (known === undefined || p.web - p.limit < known.web - known.limit) nearest.set(cut, p);
    }
  }
  const kept = new Set(nearest.values());
  return pairs
    .filter((p) => kept.has(p) || p.web < p.limit)
    .map(({ pair, web, limit }) =>
      found([pair.a.id, pair.b.id], web, limit, {
        source:
          limit === pair.limit ? pair.source : 'common practice: a hole on the floor of a recess keeps off its wall',
        at: between(pair),
      }),
    );
};

/**
 * Greatest radius of a cut where it meets the foot of a raised spigot or goes on into it; 0 where it does not come out
 * on that side.
 */
const radiusAtFoot = (cut: Cut, side: PlateBore['side'], thickness: number): number =>
  Math.max(
    0,
    ...cut.slices.filter((s) => (side === 'A' ? s.z0 <= 1e-9 : s.z1 >= thickness - 1e-9)).flatMap((s) => [s.r0, s.r1]),
  );

/** No hole, nor what is sunk on that side, may cut the wall of a raised spigot. */
const besideSpigot = (draft: Draft, spigot: PlateBore): readonly Found[] => {
  const R = spigot.diameter / 2;
  const holes = draft.cuts.flatMap((c) => {
    const r = c.what === 'hole' ? radiusAtFoot(c, spigot.side, draft.desk.thickness) : 0;
    if (r === 0) return [];
    const d = spineDistance(c.spine, [spigot, spigot]);
    const clear = d >= R ? d - R - r : R - Math.max(...c.spine.map((p) => distance(p, spigot))) - r;
    return [
      found([c.id, spigot.id], clear, 0, {
        source: 'common practice: the locating wall stays whole',
        at: thinnestAtRim(c.spine, r, spigot, R),
      }),
    ];
  });
  return failingAndLeast(holes);
};

/** The bore leaves a raised spigot enough of its wall. */
const spigotWall = (draft: Draft, spigot: PlateBore): readonly Found[] => {
  const R = spigot.diameter / 2;
  return draft.bores
    .filter((b) => b.kind === 'bore' && distance(b, spigot) < R)
    .map((b) => {
      const { value, source } = webLimit(draft.desk, []);
      return found([spigot.id, b.id], R - distance(b, spigot) - b.diameter / 2, value, {
        source,
        at: thinnestWithin([b, b], b.diameter / 2, spigot, R),
      });
    });
};

const spigotsOf = (draft: Draft): readonly PlateBore[] => draft.bores.filter((b) => b.kind === 'spigot');

export const webBetweenCuts: CheckKind = {
  id: 'web-between-cuts',
  title: 'web between cuts',
  meaning: 'weak',
  margin: marginOf,
  find: webs,
  cures: (t, f) => {
    const holes = holesOf(t.draft, f);
    return [
      ...turnOf(t),
      ...extraMoved(t, extraOf(holes)),
      ...threadsFor(t, holes),
      ...fitsFor(t, holes, tighter),
      ...slimmer(t, holes),
      ...bores(t, f),
      ...leftOut(t, f),
    ];
  },
  say: (c, speech) => {
    const [a = '', b = ''] = c.of;
    return c.value < 0
      ? `${a} breaks into ${b} by ${short(-c.value, speech)}`
      : `only ${sayBoth(c, speech)[0]} of metal between ${a} and ${b}, where ${sayBoth(c, speech)[1]} is needed`;
  },
};

export const holeToRaisedSpigot: CheckKind = {
  id: 'hole-to-raised-spigot',
  title: 'hole to raised spigot',
  meaning: 'apart',
  margin: marginOf,
  find: (draft) => spigotsOf(draft).flatMap((s) => besideSpigot(draft, s)),
  cures: (t, f) => {
    const holes = holesOf(t.draft, f);
    return [
      ...turnOf(t),
      ...slimmer(t, holes),
      ...threadsFor(t, holes),
      ...fitsFor(t, holes, tighter),
      ...dowelledInstead(t, f),
      ...leftOut(t, f),
    ];
  },
  say: (c, speech) => `${c.of[0] ?? ''} cuts ${short(-c.value, speech)} into the raised spigot ${c.of[1] ?? ''}`,
};

export const raisedSpigotWall: CheckKind = {
  id: 'raised-spigot-wall',
  title: 'wall of the raised spigot',
  meaning: 'weak',
  margin: marginOf,
  find: (draft) => spigotsOf(draft).flatMap((s) => spigotWall(draft, s)),
  cures: bores,
  say: sayPlain,
};
