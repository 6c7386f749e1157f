import { pointLength } from '@fayplate/handbook';
import { midpoint } from '@fayplate/core';
import type { Draft } from '../draft.js';
import { type Cut, cutRadius } from '../solids/cut.js';
import { endGap } from '../solids/gap.js';
import { spineDistance } from '../solids/spine.js';
import { webBetween } from '../solids/web.js';
import type { PlateHole } from '../types.js';
import { type Finding, finding, marginOf } from './check.js';
import { webLimit } from './limits.js';

/** Metal between the bottom of a sunk head and the far side. */
const underSink = (hole: PlateHole): number => hole.land[1] - hole.land[0] - (hole.sink?.depth ?? 0);
/** Metal between the point of the drill and the far side. */
const underPoint = (hole: PlateHole): number =>
  hole.land[1] - hole.land[0] - (hole.depth ?? 0) - pointLength(hole.diameter);

const oneHole = (draft: Draft, hole: PlateHole, cut: Cut): readonly Finding[] => {
  const { value, source } = webLimit(draft.desk, [cut]);
  return [
    ...(hole.sink === null
      ? []
      : [
          finding(
            hole.sink.kind === 'countersunk' ? 'floor under the countersink' : 'floor under the counterbore',
            [hole.id],
            underSink(hole),
            value,
            { source, at: hole },
          ),
        ]),
    ...(hole.depth === null
      ? []
      : [
          finding('floor under the drill point', [hole.id], underPoint(hole), Math.min(value, 1), {
            source: 'common practice: a millimetre, so that the point does not come through',
            at: hole,
          }),
        ]),
  ];
};

/** Cuts from opposite sides that end over each other, or on a slant: the straight-line metal between their ends. */
const endToEnd = (draft: Draft, a: Cut, b: Cut): Finding | null => {
  const apart = spineDistance(a.spine, b.spine);
  const { value, source } = webLimit(draft.desk, [a, b]);
  if (apart - cutRadius(a) - cutRadius(b) > value) return null;
  const gap = endGap(a, b, apart);
  return gap === null
    ? null
    : finding('floor between cuts', [a.id, b.id], gap, value, {
        source,
        at: midpoint(midpoint(...a.spine), midpoint(...b.spine)),
      });
};

/** A recess or pocket with a floor: it does not go through, and no through bore takes its whole floor away. */
const hasFloor = (draft: Draft, cut: Cut): boolean => {
  const through = (c: Cut): boolean => c.slices.some((s) => s.z1 - s.z0 >= draft.desk.thickness - 1e-9);
  if (cut.what === 'hole' || through(cut)) return false;
  return !draft.cuts.some(
    (c) => c.what !== 'hole' && through(c) && spineDistance(c.spine, cut.spine) + cutRadius(cut) <= cutRadius(c) + 1e-9,
  );
};

/** Floors under counterbores and blind holes, of each recess, between opposed recesses, and between cuts that end near each other: all that fail, and the least. */
export const floorFindings = (draft: Draft): readonly Finding[] => {
  const { desk, cuts } = draft;
  const holes = draft.holes.flatMap((hole, i) => {
    const cut = cuts[i];
    return cut === undefined ? [] : oneHole(draft, hole, cut);
  });
  const pockets = cuts.filter((c) => hasFloor(draft, c));
  const floors = pockets.map((c) => {
    const { value, source } = webLimit(desk, []);
    const depth = c.slices.reduce((s, { z0, z1 }) => s + z1 - z0, 0);
    return finding('floor of the recess', [c.id], desk.thickness - depth, desk.spec.limits.web ?? value, {
      source,
      at: c.spine[0],
    });
  });
  const opposed = pockets.flatMap((a, i) => pockets.slice(i + 1).flatMap((b) => endToEnd(draft, a, b) ?? []));
  // A hole that opens on a pocket's floor meets it there by design; any other end that comes near something is counted.
  const ends = cuts.flatMap((a, i) =>
    cuts.slice(i + 1).flatMap((b) => {
      if (hasFloor(draft, a) && hasFloor(draft, b)) return [];
      if (a.what !== 'hole' && b.what !== 'hole') return [];
      const pocket = hasFloor(draft, a) ? a : hasFloor(draft, b) ? b : null;
      if (pocket !== null && spineDistance(a.spine, b.spine) < (pocket.slices[0]?.r0 ?? 0)) return [];
      const web = webBetween(a, b);
      const end = endToEnd(draft, a, b);
      return end === null || (web !== null && web < end.limit) ? [] : [end];
    }),
  );
  const [least] = ends.toSorted((a, b) => marginOf(a) - marginOf(b));
  return [...holes, ...floors, ...opposed, ...ends.filter((e) => !e.ok || e === least)];
};
