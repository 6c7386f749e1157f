import { distance } from '@fayplate/core';
import { dowelLimits } from '@fayplate/handbook';
import type { Face } from '@fayplate/job';
import { centreOf, standsOut } from '../bores/registers.js';
import { diameterPlusMinus } from '../desk.js';
import type { Draft } from '../draft.js';
import { usualDrilling } from '../drilling.js';
import { nominalDowel, spacingPlusMinus } from '../treat/dowel.js';
import type { PlateBore } from '../types.js';
import { type Finding, finding } from './check.js';

/** Registers go on, their faces meet before their bottoms, and the bore leaves them a wall. */
const registers = (draft: Draft): readonly Finding[] =>
  draft.bores.flatMap((bore) => {
    if (bore.kind !== 'recess' && bore.kind !== 'spigot') return [];
    const centre = draft.desk.placed.find((p) => p.name === bore.feature);
    if (centre === undefined) return [];
    const out: Finding[] = [];
    if (centre.diameter !== null) {
      const clear =
        bore.kind === 'recess'
          ? (bore.limits?.[0] ?? bore.diameter) - centre.diameter
          : centre.diameter - (bore.limits?.[1] ?? bore.diameter);
      out.push(
        finding('register goes on', [bore.id, centre.name], clear, diameterPlusMinus(centre), {
          source: 'geometry: the larger less the smaller, at its tightest, and the ± of what was measured',
          at: bore,
        }),
      );
    }
    const known = standsOut(centre);
    if (known !== null && bore.depth !== null) {
      const spare = bore.kind === 'recess' ? bore.depth - known : known - bore.depth;
      out.push(
        finding('faces meet before the register bottoms', [bore.id, centre.name], spare, 0, {
          source: 'geometry',
          at: bore,
        }),
      );
    }
    const through = draft.bores.filter(
      (b) =>
        b.kind === 'bore' && (b.side === 'through' || b.side === bore.side) && distance(b, bore) < bore.diameter / 2,
    );
    if (bore.kind === 'recess') {
      for (const b of through) {
        out.push(
          finding('wall of the register', [bore.id, b.id], bore.diameter / 2 - b.diameter / 2 - distance(b, bore), 0, {
            source: 'geometry: a bore wider than the register takes its wall away',
            at: bore,
          }),
        );
      }
    }
    return out;
  });

/** Dowels that are set to fight: a second round one whose spacing is not known well enough, or a third. */
const dowels = (draft: Draft): readonly Finding[] =>
  draft.desk.faces.flatMap((face) => {
    const spec = draft.desk.spec.locate.get(face.name);
    if (spec?.as !== 'own dowels') return [];
    const holes = draft.holes.filter((h) => (h.as === 'dowel' || h.as === 'slot') && h.part?.face === face.name);
    const [first, second] = spec.features.map((id) =>
      draft.desk.placed.find((p) => p.face === face && p.feature.id === id),
    );
    const out: Finding[] = [];
    if (holes.length > 2) {
      out.push(
        finding(
          'dowels that locate the same thing',
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
      );
    }
    const rounds = holes.filter((h) => h.as === 'dowel').slice(0, 2);
    if (first !== undefined && second !== undefined && rounds.length === 2) {
      const play = rounds.reduce(
        (sum, h) => sum + (h.limits?.[0] ?? h.diameter) - (dowelLimits(nominalDowel(h.diameter))?.least ?? h.diameter),
        0,
      );
      const unsure =
        spacingPlusMinus(draft.desk, first, second) + Math.SQRT2 * (draft.desk.spec.drilling ?? usualDrilling);
      out.push(
        finding(
          'two round dowels fight',
          rounds.map((h) => h.id),
          unsure,
          Math.max(play / 2, 0),
          {
            source: 'geometry: the ± of their spacing against the play of both; a slot takes it up',
            sense: 'most',
            at: second.at,
          },
        ),
      );
    }
    return out;
  });

/** Registers whose part does not say how far it stands out, or goes in. */
const depthUnknowns = (draft: Draft): readonly string[] => {
  const open = draft.bores.flatMap((bore) => {
    const centre = draft.desk.placed.find((p) => p.name === bore.feature);
    return centre === undefined || bore.depth === null || standsOut(centre) !== null
      ? []
      : [{ bore, name: centre.name }];
  });
  const both = (
    kind: PlateBore['kind'],
    says: (names: string, bores: string, are: string) => string,
  ): readonly string[] => {
    const own = open.filter((o) => o.bore.kind === kind);
    return own.length === 0
      ? []
      : [
          says(
            own.map((o) => o.name).join(' and '),
            own.map((o) => o.bore.id).join(' and '),
            own.length === 1 ? 'is' : 'are',
          ),
        ];
  };
  return [
    ...both(
      'recess',
      (names, ids, are) =>
        `How far ${names} ${are === 'is' ? 'stands' : 'stand'} out is not given: write \`stands\`, so that ${ids} ${are} known to be deep enough for the faces to meet.`,
    ),
    ...both(
      'spigot',
      (names, ids, are) =>
        `How deep ${names} ${are === 'is' ? 'goes' : 'go'} in is not given: write \`deep\`, so that ${ids} ${are} known not to bottom before the faces meet.`,
    ),
  ];
};

/** What of a face is its origin. */
const originOf = (face: Face): string => face.centre ?? face.across?.[0] ?? 'the middle of the features';

/** Both origins lie on one axis; where a face names no centre that may not be what is meant. */
const axisUnknowns = ({ desk }: Draft): readonly string[] => {
  const [first, second] = desk.faces;
  const bare = desk.faces.filter((f) => f.centre === null).map((f) => f.name);
  if (bare.length === 0) return [];
  return [
    `${bare.join(' and ')} ${bare.length === 1 ? 'names' : 'name'} no \`centre\`: ${originOf(first)} of ${first.name} was laid over ${originOf(second)} of ${second.name}. If that is not where the axes meet, give \`centre\`.`,
  ];
};

/** What each face is held by, so that no two hold the same thing: a register, or dowels, never both. */
export const locatingUnknowns = (draft: Draft): readonly string[] => [
  ...axisUnknowns(draft),
  ...depthUnknowns(draft),
  ...unlocated(draft),
];

const unlocated = (draft: Draft): readonly string[] =>
  draft.desk.faces
    .filter((f) => !draft.desk.spec.locate.has(f.name))
    .map(
      (f) =>
        `Nothing makes ${f.name} concentric but its fasteners${centreOf(draft.desk, f.name) === null ? '' : `, although it has ${f.centre ?? ''}`}: if its shaft has to run true, give it a register or dowels under \`locate\`.`,
    );

export const locatingFindings = (draft: Draft): readonly Finding[] => [...registers(draft), ...dowels(draft)];
