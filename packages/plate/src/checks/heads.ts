import { type Requirement, sayAll } from '@fayplate/core';
import { holesOf, turnOf } from '../cures/about.js';
import { sunk, tappedInstead } from '../cures/fasteners.js';
import { otherSide } from '../desk.js';
import type { Draft } from '../draft.js';
import { meets } from '../parts/footprint.js';
import type { FastenerHead, PlateHole } from '../types.js';
import { short } from '../words/say.js';
import { type CheckKind, type Found, found, marginOf } from './check.js';
import { unknown } from './unknown.js';

export interface Headed {
  readonly hole: PlateHole;
  readonly head: FastenerHead;
  readonly source: string;
}

export const headed = (draft: Draft): readonly Headed[] =>
  draft.holes.flatMap((hole) => {
    const head = hole.fastening?.head ?? null;
    return head === null ? [] : [{ hole, head, source: draft.made.seatSources.get(hole.id) ?? 'common practice' }];
  });

/** Index of the part that lies on a side. */
const onSide = (side: 'A' | 'B'): 0 | 1 => (side === 'A' ? 0 : 1);

/** A nut or head on the side where the other part lies: below the surface, or clear of that part. */
const underPart =
  (kind: FastenerHead['kind']) =>
  (draft: Draft): readonly Found[] =>
    headed(draft).flatMap(({ hole, head, source }) => {
      const footprint = draft.parts[onSide(head.side)];
      return head.kind !== kind || meets(footprint, hole, head.diameter / 2, head.proud) !== 'yes'
        ? []
        : [found([hole.id, footprint.face], head.proud, 0, { source, sense: 'most', at: hole })];
    });

const underPartUnknowns = (draft: Draft): readonly Requirement[] => {
  const unsure = new Map<string, string[]>();
  for (const { hole, head } of headed(draft)) {
    // A countersunk head lies flush by its very form.
    if (head.kind === 'countersunk screw' || head.proud <= 0) continue;
    const footprint = draft.parts[onSide(head.side)];
    if (meets(footprint, hole, head.diameter / 2) === 'not known')
      unsure.set(footprint.face, [...(unsure.get(footprint.face) ?? []), hole.id]);
  }
  return [
    ...[...unsure].map(([face, ids]) =>
      unknown(
        'head-under-part',
        `Whether ${face} reaches over the nuts or heads of ${ids.join(', ')} is not known: give the \`rim\` of ` +
          `${face}, or sink them.`,
        `measure the outline of ${face} (its diameter, where it is round), or sink them`,
      ),
    ),
    ...unsizedUnderPart(draft),
  ];
};

/** Nuts or heads of no known size where the other part lies, or may lie, over them. */
const unsizedUnderPart = (draft: Draft): readonly Requirement[] =>
  draft.desk.faces.flatMap((face, i) => {
    const over = draft.parts[i === 0 ? 1 : 0];
    const ids = draft.holes
      .filter((h) => h.part?.face === face.name && h.as === 'clearance')
      .filter((h) => h.fastening?.kind === 'stud' || h.fastening?.kind === 'screw')
      .filter((h) => h.fastening?.head === null && meets(over, h, h.fastening.nominal) !== 'no')
      .map((h) => h.id);
    return ids.length === 0
      ? []
      : [
          unknown(
            'head-under-part',
            `What nut or head sits in ${sayAll(ids)} is not known, and ${over.face} ` +
              `${over.known ? 'lies' : 'may lie'} over ${ids.length === 1 ? 'it' : 'them'}: give the \`thread\`, or ` +
              `the sizes of your own under \`nut\` or \`cap screw\`.`,
            `state ${ids.length === 1 ? 'its' : 'their'} thread, or measure the nut or head`,
          ),
        ];
  });

/** Nuts and heads on the far side of their own part, with whether the other part lies over the room to turn them. */
export const reachable = (
  draft: Draft,
  index: 0 | 1,
): readonly { readonly h: Headed; readonly met: 'yes' | 'no' | 'not known' }[] => {
  const name = draft.desk.faces[index].name;
  const footprint = draft.parts[index === 0 ? 1 : 0];
  return headed(draft)
    .filter((h) => h.head.side === otherSide(index === 0 ? 'A' : 'B') && h.hole.part?.face === name)
    .map((h) => ({ h, met: meets(footprint, h.hole, Math.max(h.head.socket, h.head.diameter) / 2) }));
};

/**
 * Order of assembly: whichever part goes on last, all its nuts and heads have to be reached with the other part in
 * place. Those on the plate's far side are reached only where the other part does not cover them.
 */
const order = (draft: Draft): { readonly findings: readonly Found[]; readonly unknowns: readonly Requirement[] } => {
  const sides = ([0, 1] as const).map((index) => reachable(draft, index));
  const [first = [], second = []] = sides.map((s) => s.filter((r) => r.met === 'yes').map((r) => r.h));
  const unsure = sides.map((s) => s.filter((r) => r.met === 'not known').map((r) => r.h.hole.id));
  const free = sides.some((s) => s.every((r) => r.met === 'no'));
  const unknowns =
    free || (first.length > 0 && second.length > 0)
      ? []
      : [
          unknown(
            'assembly-order',
            `Whether ${unsure.flat().join(', ')} can still be reached once the other part is on is not known: give ` +
              `the \`rim\` of ` +
              `${draft.desk.spec.between.filter((_, i) => (unsure[1 - i] ?? []).length > 0).join(' and ')}.`,
            'measure the outline of ' +
              draft.desk.spec.between.filter((_, i) => (unsure[1 - i] ?? []).length > 0).join(' and '),
          ),
        ];
  if (first.length === 0 && second.length === 0) return { findings: [], unknowns };
  const least = Math.min(first.length, second.length);
  const hidden = first.length <= second.length ? first : second;
  const of = least === 0 ? [...draft.desk.spec.between] : hidden.map((h) => h.hole.id);
  const source = 'common practice: one part goes on last, and its fasteners are reached from outside';
  return {
    findings: [
      found(of, least, 0, {
        source,
        unit: '1',
        sense: 'most',
        at: hidden[0]?.hole ?? null,
      }),
    ],
    unknowns,
  };
};

/** A cone leaves its head no play, whatever the hole under it leaves the shank. */
const cones = (draft: Draft): readonly Requirement[] => {
  const own = headed(draft).filter((h) => h.head.kind === 'countersunk screw');
  return own.length === 0
    ? []
    : [
        unknown(
          'cone-seats',
          `The countersunk heads in ${own.map((h) => h.hole.id).join(', ')} seat only where their holes are true: ` +
            'the chance that it goes on counts only the play of their shanks. Where a hole is off, the head stands ' +
            'up on one side. Spot these holes through the part, or use cap screws.',
        ),
      ];
};

/** Where the other part lies over a nut or head, and what a cone asks, is not always known. */
export const headUnknowns = (draft: Draft): readonly Requirement[] => [
  ...underPartUnknowns(draft),
  ...order(draft).unknowns,
  ...cones(draft),
];

const sayUnder =
  (what: string): CheckKind['say'] =>
  (c, speech) =>
    `the ${what} in ${c.of[0] ?? ''} stands ${short(c.value, speech)} into ${c.of[1] ?? ''}`;

export const nutUnderPart: CheckKind = {
  id: 'nut-under-part',
  title: 'nut under the other part',
  meaning: 'apart',
  margin: marginOf,
  find: underPart('nut'),
  cures: (t, f) => [...sunk(t, holesOf(t.draft, f)), ...turnOf(t)],
  say: sayUnder('nut'),
};

export const capScrewUnderPart: CheckKind = {
  ...nutUnderPart,
  id: 'cap-screw-under-part',
  title: 'cap screw under the other part',
  find: underPart('cap screw'),
  say: sayUnder('cap screw'),
};

export const assemblyOrder: CheckKind = {
  id: 'assembly-order',
  title: 'fasteners out of reach once the other part is on',
  meaning: 'apart',
  margin: marginOf,
  find: (draft) => order(draft).findings,
  cures: (t) => [...turnOf(t), ...tappedInstead(t)],
  say: (c) => `${c.value} fasteners cannot be reached once the other part is on, whichever goes on last`,
};
