import { dowelLimits } from '@fayplate/handbook';
import { holesOf } from '../cures/about.js';
import { dowelsFor } from '../cures/locating.js';
import type { Placed } from '../desk.js';
import type { Draft } from '../draft.js';
import { usualDrilling } from '../limits.js';
import { nominalDowel, spacingPlusMinus } from '../treat/dowel.js';
import type { PlateHole } from '../types.js';
import { names, sayBoth } from '../words/say.js';
import { type CheckKind, type Found, found, marginOf } from './check.js';

interface OwnDowels {
  readonly holes: readonly PlateHole[];
  readonly pins: readonly (Placed | undefined)[];
}

/** Faces that are located by their own dowels, with the holes for them. */
const ownDowels = (draft: Draft): readonly OwnDowels[] =>
  draft.desk.faces.flatMap((face) => {
    const spec = draft.desk.spec.locate.get(face.name);
    if (spec?.as !== 'own dowels') return [];
    const holes = draft.holes.filter((h) => (h.as === 'dowel' || h.as === 'slot') && h.part?.face === face.name);
    const pins = spec.features.map((id) => draft.desk.placed.find((p) => p.face === face && p.feature.id === id));
    return [{ holes, pins }];
  });

const tooMany = ({ holes }: OwnDowels): readonly Found[] =>
  holes.length <= 2
    ? []
    : [
        found(
          holes.map((h) => h.id),
          holes.length,
          2,
          {
            source: 'common practice: one dowel holds a place, the second only the turn',
            unit: '1',
            sense: 'most',
            at: holes[2] ?? null,
          },
        ),
      ];

/** A second round dowel whose spacing from the first is not known well enough. */
const fighting = (draft: Draft, { holes, pins: [first, second] }: OwnDowels): readonly Found[] => {
  const rounds = holes.filter((h) => h.as === 'dowel').slice(0, 2);
  if (first === undefined || second === undefined || rounds.length !== 2) return [];
  const play = rounds.reduce(
    (sum, h) => sum + (h.limits?.[0] ?? h.diameter) - (dowelLimits(nominalDowel(h.diameter))?.least ?? h.diameter),
    0,
  );
  const unsure = spacingPlusMinus(draft.desk, first, second) + Math.SQRT2 * (draft.desk.spec.drilling ?? usualDrilling);
  return [
    found(
      rounds.map((h) => h.id),
      unsure,
      Math.max(play / 2, 0),
      {
        source: 'geometry: the ± of their spacing against the play of both; a slot takes it up',
        sense: 'most',
        at: second.at,
      },
    ),
  ];
};

export const dowelCount: CheckKind = {
  id: 'dowel-count',
  title: 'dowels that locate the same thing',
  meaning: 'apart',
  margin: marginOf,
  find: (draft) => ownDowels(draft).flatMap(tooMany),
  cures: (t, f) => dowelsFor(t, holesOf(t.draft, f)),
  say: (c) => `${names(c)} locate the same thing, and two dowels are enough`,
};

export const dowelsFight: CheckKind = {
  id: 'dowels-fight',
  title: 'two round dowels fight',
  meaning: 'apart',
  margin: marginOf,
  find: (draft) => ownDowels(draft).flatMap((d) => fighting(draft, d)),
  cures: (t, f) => dowelsFor(t, holesOf(t.draft, f)),
  say: (c, speech) => {
    const [unsure, play] = sayBoth(c, speech);
    return `the dowels in ${names(c)} conflict: their spacing is uncertain by ${unsure}, and their play takes up ${play}`;
  },
};
