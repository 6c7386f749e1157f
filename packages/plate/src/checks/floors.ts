import { centroid } from '@fayplate/core';
import { pointLength } from '@fayplate/handbook';
import type { Draft } from '../draft.js';
import { type Cut, cutRadius, liesWithin, spineDistance } from '../solids/cut.js';
import { endGap, sharedReach, webBetween } from '../solids/gap.js';
import { thinnestBetween } from '../solids/thinnest.js';
import type { PlateHole } from '../types.js';
import * as change from '../cures/change.js';
import { leftOut, slimmer, threadsFor } from '../cures/fasteners.js';
import { registersFor } from '../cures/locating.js';
import { thicker } from '../cures/plate.js';
import { faceOf, holesOf, shortOf, turnOf } from '../cures/about.js';
import { webLimit } from '../limits.js';
import { sayBoth, sayPlain, short } from '../words/say.js';
import { type CheckKind, type Found, failingAndLeast, found, marginOf } from './check.js';

/** Metal between the bottom of a sunk head and the far side. */
const underSink = (hole: PlateHole): number => hole.land[1] - hole.land[0] - (hole.sink?.depth ?? 0);
/** Metal between the point of the drill and the far side. */
const underPoint = (hole: PlateHole): number =>
  hole.land[1] - hole.land[0] - (hole.depth ?? 0) - pointLength(hole.diameter);

/** The floor under every head that is sunk in this way, or in any other. */
const sinkFloors =
  (countersunk: boolean) =>
  (draft: Draft): readonly Found[] =>
    draft.holes.flatMap((hole, i) => {
      const cut = draft.cuts[i];
      if (cut === undefined || hole.sink === null || (hole.sink.kind === 'countersunk') !== countersunk) return [];
      const { value, source } = webLimit(draft.desk, [cut]);
      return [found([hole.id], underSink(hole), value, { source, at: hole })];
    });

const drillPoints = (draft: Draft): readonly Found[] =>
  draft.holes.flatMap((hole, i) => {
    const cut = draft.cuts[i];
    if (cut === undefined || hole.depth === null) return [];
    const { value } = webLimit(draft.desk, [cut]);
    return [
      found([hole.id], underPoint(hole), Math.min(value, 1), {
        source: 'common practice: a millimetre, so that the point does not come through',
        at: hole,
      }),
    ];
  });

/** Cuts from opposite sides that end over each other, or on a slant: the straight-line metal between their ends. */
const endToEnd = (draft: Draft, a: Cut, b: Cut): Found | null => {
  const apart = spineDistance(a.spine, b.spine);
  const { value, source } = webLimit(draft.desk, [a, b]);
  if (apart - cutRadius(a) - cutRadius(b) > value) return null;
  const gap = endGap(a, b, apart);
  return gap === null
    ? null
    : found([a.id, b.id], gap, value, {
        source,
        at: thinnestBetween(a, b),
      });
};

/**
 * A pocket that the job asks for, and a recess or pocket from the other side that it meets: neither then has a floor. A
 * blind bore, and registers among themselves, may meet by design.
 */
const brokenThrough = (draft: Draft, a: Cut, b: Cut): Found | null => {
  const [one, other] = [a, b].map((c) => draft.bores.find((bore) => bore.id === c.id));
  if (one === undefined || other === undefined || one.side === other.side) return null;
  if (one.cut === undefined && other.cut === undefined) return null;
  const reach = sharedReach(a, b);
  if (reach === null || spineDistance(a.spine, b.spine) >= reach) return null;
  const low = Math.max(...[a, b].map((c) => Math.min(...c.slices.map((s) => s.z0))));
  const high = Math.min(...[a, b].map((c) => Math.max(...c.slices.map((s) => s.z1))));
  return found([a.id, b.id], low - high, 0, { source: 'geometry', at: centroid(a.spine) });
};

/** A recess or pocket with a floor: it does not go through, and no through bore takes its whole floor away. */
const hasFloor = (draft: Draft, cut: Cut): boolean => {
  const through = (c: Cut): boolean => c.slices.some((s) => s.z1 - s.z0 >= draft.desk.thickness - 1e-9);
  if (cut.what === 'hole' || through(cut)) return false;
  return !draft.cuts.some((c) => c.what !== 'hole' && through(c) && liesWithin(cut, c));
};

const recessFloors = (draft: Draft): readonly Found[] =>
  draft.cuts
    .filter((c) => hasFloor(draft, c))
    .map((c) => {
      const { value, source } = webLimit(draft.desk, []);
      const depth = c.slices.reduce((s, { z0, z1 }) => s + z1 - z0, 0);
      return found([c.id], draft.desk.thickness - depth, draft.desk.spec.limits.web ?? value, {
        source,
        at: centroid(c.spine),
      });
    });

/** Between opposed recesses, and between cuts that end near each other: all that fail, and the least. */
const betweenCuts = (draft: Draft): readonly Found[] => {
  const { cuts } = draft;
  const pockets = cuts.filter((c) => hasFloor(draft, c));
  const opposed = pockets.flatMap((a, i) =>
    pockets.slice(i + 1).flatMap((b) => brokenThrough(draft, a, b) ?? endToEnd(draft, a, b) ?? []),
  );
  // A hole that opens on a pocket's floor meets it there by design; any other end that comes near something is counted.
  const ends = cuts.flatMap((a, i) =>
    cuts.slice(i + 1).flatMap((b) => {
      if (pockets.includes(a) && pockets.includes(b)) return [];
      if (a.what !== 'hole' && b.what !== 'hole') return [];
      const pocket = pockets.includes(a) ? a : pockets.includes(b) ? b : null;
      if (pocket !== null && spineDistance(a.spine, b.spine) < (pocket.slices[0]?.r0 ?? 0)) return [];
      const web = webBetween(a, b);
      const end = endToEnd(draft, a, b);
      return end === null || (web !== null && web < end.limit) ? [] : [end];
    }),
  );
  return [...opposed, ...failingAndLeast(ends)];
};

const sayFloor =
  (what: string): CheckKind['say'] =>
  (c, speech) =>
    c.value < 0
      ? `${c.of[0] ?? ''} comes through by ${short(-c.value, speech)}`
      : `only ${sayBoth(c, speech)[0]} of ${what} of ${c.of[0] ?? ''}, where ${sayBoth(c, speech)[1]} is needed`;

const sinkCures: CheckKind['cures'] = (t, f) => [
  ...thicker(t, shortOf(t.draft, f)),
  ...slimmer(t, holesOf(t.draft, f)),
  ...registersFor(t, f, 'depth'),
];

export const counterboreFloor: CheckKind = {
  id: 'counterbore-floor',
  title: 'floor under the counterbore',
  meaning: 'weak',
  margin: marginOf,
  find: sinkFloors(false),
  cures: sinkCures,
  say: sayFloor('floor under the counterbore'),
};

export const countersinkFloor: CheckKind = {
  ...counterboreFloor,
  id: 'countersink-floor',
  title: 'floor under the countersink',
  find: sinkFloors(true),
  say: sayFloor('floor under the countersink'),
};

export const drillPointFloor: CheckKind = {
  id: 'drill-point-floor',
  title: 'floor under the drill point',
  meaning: 'weak',
  margin: marginOf,
  find: drillPoints,
  cures: (t, f) => {
    const holes = holesOf(t.draft, f);
    const [hole] = holes;
    const face = hole === undefined ? null : faceOf(hole);
    return [
      ...thicker(t, shortOf(t.draft, f)),
      ...(face === null ? [] : [change.fastened(t.job, face, `tap the holes for ${face} through`, { blind: false })]),
      ...threadsFor(t, holes),
    ];
  },
  say: sayFloor('floor under the drill point'),
};

export const recessFloor: CheckKind = {
  ...counterboreFloor,
  id: 'recess-floor',
  title: 'floor of the recess',
  find: recessFloors,
  say: sayFloor('floor of the recess'),
};

export const floorBetweenCuts: CheckKind = {
  id: 'floor-between-cuts',
  title: 'floor between cuts',
  meaning: 'weak',
  margin: marginOf,
  find: betweenCuts,
  cures: (t, f) => [
    ...turnOf(t),
    ...thicker(t, shortOf(t.draft, f)),
    ...slimmer(t, holesOf(t.draft, f)),
    ...leftOut(t, f),
  ],
  say: (c, speech) =>
    c.value < 0
      ? `${c.of[0] ?? ''} and ${c.of[1] ?? ''} meet from both sides: together they are ${short(-c.value, speech)} ` +
        'deeper than the plate is thick'
      : sayPlain(c, speech),
};
