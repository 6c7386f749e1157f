import { type Requirement, distance, say } from '@fayplate/core';
import { centreOf, standsOut } from '../bores/registers.js';
import { farOf, withinBore } from '../bores/shape.js';
import { registersFor } from '../cures/locating.js';
import { bores as smallerBore } from '../cures/plate.js';
import { type Placed, diameterPlusMinus } from '../desk.js';
import type { Draft } from '../draft.js';
import { knownGasket } from '../stack/gasket.js';
import type { PlateBore } from '../types.js';
import { places, sayBoth, sayPlain, short } from '../words/say.js';
import { type CheckKind, type Found, SLACK, found, marginOf } from './check.js';
import { unknown } from './unknown.js';

interface Registered {
  readonly bore: PlateBore;
  readonly centre: Placed;
}

const registered = (draft: Draft): readonly Registered[] =>
  draft.bores.flatMap((bore) => {
    const centre = draft.desk.placed.find((p) => p.name === bore.feature);
    return (bore.kind === 'recess' || bore.kind === 'spigot') && centre !== undefined ? [{ bore, centre }] : [];
  });

const goesOn = ({ bore, centre }: Registered): readonly Found[] => {
  if (centre.diameter === null) return [];
  const clear =
    bore.kind === 'recess'
      ? (bore.limits?.[0] ?? bore.diameter) - centre.diameter
      : centre.diameter - (bore.limits?.[1] ?? bore.diameter);
  return [
    found([bore.id, centre.name], clear, diameterPlusMinus(centre), {
      source: 'geometry: the larger less the smaller, at its tightest, and the ± of what was measured',
      at: bore,
    }),
  ];
};

/** A gasket between the faces lifts the part: its thickness is so much more room below a spigot. */
const facesMeet = (draft: Draft, { bore, centre }: Registered): readonly Found[] => {
  const known = standsOut(centre);
  if (known === null || bore.depth === null) return [];
  const clear = (bore.kind === 'recess' ? bore.depth - known : known - bore.depth) + gasketAt(draft, centre);
  return [found([bore.id, centre.name], clear, 0, { source: 'geometry', at: bore })];
};

const gasketAt = (draft: Draft, centre: Placed): number => knownGasket(draft.desk.job, centre.face.name);

/** A register that enters less than this holds nothing, its edges being broken, mm. Source: common practice. */
const LEAST_ENTRY = 0.5;

/** How far spigot and recess still enter each other over a gasket: the shorter of the two, less the gasket. */
const enters = (draft: Draft, { bore, centre }: Registered): readonly Found[] => {
  const known = standsOut(centre);
  const made = bore.depth ?? draft.desk.thickness;
  const shorter = known === null ? (bore.kind === 'recess' ? null : made) : Math.min(known, made);
  return shorter === null
    ? []
    : [
        found([bore.id, centre.name], shorter - gasketAt(draft, centre), LEAST_ENTRY, {
          source: 'common practice: edges are broken, and less of a register holds nothing',
          at: bore,
        }),
      ];
};

/** A bore that opens on the register's side and lies within it. */
const boresIn = (draft: Draft, register: PlateBore): readonly PlateBore[] =>
  draft.bores.filter(
    (b) =>
      b.kind === 'bore' &&
      (b.side === 'through' || b.side === register.side) &&
      distance(b, register) < register.diameter / 2,
  );

/**
 * Recesses and pockets from the other side that reach so deep that less of the register's wall is left than the spigot
 * stands out.
 */
const cutFromBehind = (draft: Draft, { bore, centre }: Registered): readonly PlateBore[] => {
  const { thickness } = draft.desk;
  const needed = Math.min(bore.depth ?? thickness, standsOut(centre) ?? Infinity);
  return draft.bores.filter(
    (b) =>
      b !== bore &&
      b.kind !== 'spigot' &&
      b.kind !== 'bore' &&
      b.side !== bore.side &&
      thickness - (b.depth ?? thickness) < needed - SLACK &&
      -withinBore(bore, b) < bore.diameter / 2,
  );
};

const walls = (draft: Draft): readonly Found[] =>
  registered(draft)
    .filter(({ bore }) => bore.kind === 'recess')
    .flatMap((own) => ({ ...own, others: [...boresIn(draft, own.bore), ...cutFromBehind(draft, own)] }))
    .flatMap(({ bore, others }) =>
      others.map((b) =>
        found([bore.id, b.id], bore.diameter / 2 - farOf(bore, b), 0, {
          source: 'geometry: a bore wider than the register takes its wall away',
          at: bore,
        }),
      ),
    );

/** Registers whose part's own diameter was not measured. */
const sizeUnknowns = (draft: Draft): readonly Requirement[] =>
  registered(draft)
    .filter(({ centre }) => centre.diameter === null)
    .map(({ bore, centre }) =>
      unknown(
        'register-size',
        `Whether ${bore.id} goes on ${centre.name} is not known, as its diameter is not measured: give its ` +
          `\`diameter\`, or a reading \`dia ${centre.feature.id}\`.`,
        'measure it',
      ),
    );

/** Registers whose part does not say how far it stands out, or goes in. */
const depthUnknowns = (draft: Draft): readonly Requirement[] => {
  const open = draft.bores.flatMap((bore) => {
    const centre = draft.desk.placed.find((p) => p.name === bore.feature);
    return centre === undefined ||
      bore.depth === null ||
      standsOut(centre) !== null ||
      // A bore goes as deep as the flange that it is in, unless it says otherwise.
      (bore.kind === 'spigot' && (centre.face.flange ?? 0) > bore.depth)
      ? []
      : [{ bore, name: centre.name }];
  });
  const both = (
    kind: PlateBore['kind'],
    says: (names: string, bores: string, are: string) => readonly [text: string, atBench: string],
  ): readonly Requirement[] => {
    const own = open.filter((o) => o.bore.kind === kind);
    return own.length === 0
      ? []
      : [
          unknown(
            'register-depth',
            ...says(
              own.map((o) => o.name).join(' and '),
              own.map((o) => o.bore.id).join(' and '),
              own.length === 1 ? 'is' : 'are',
            ),
          ),
        ];
  };
  return [
    ...both('recess', (names, ids, are) => {
      const so = `so that ${ids} ${are} known to be deep enough for the faces to meet`;
      const what = `How far ${names} ${are === 'is' ? 'stands' : 'stand'} out is not given`;
      return [`${what}: write \`stands\`, ${so}.`, `measure it, ${so}`];
    }),
    ...both('spigot', (names, ids, are) => {
      const so = `so that ${ids} ${are} known not to bottom before the faces meet`;
      const what = `How deep ${names} ${are === 'is' ? 'goes' : 'go'} in is not given`;
      return [`${what}: write \`deep\`, ${so}.`, `measure it, ${so}`];
    }),
  ];
};

/** What each face is held by, so that no two hold the same thing: a register, or dowels, never both. */
export const locatingUnknowns = (draft: Draft): readonly Requirement[] => [
  ...sizeUnknowns(draft),
  ...depthUnknowns(draft),
  ...unlocated(draft),
];

const unlocated = (draft: Draft): readonly Requirement[] =>
  draft.desk.faces
    .filter((f) => !draft.desk.spec.locate.has(f.name))
    .map((f) =>
      unknown(
        'unlocated',
        `Nothing makes ${f.name} concentric but its ` +
          `fasteners${centreOf(draft.desk, f.name) === null ? '' : `, although it has ${f.centre ?? ''}`}: if its ` +
          `shaft has to run true, give it a register or dowels under \`locate\`.`,
        'if its shaft has to run true, give it a register or dowels',
      ),
    );

export const registerFit: CheckKind = {
  id: 'register-fit',
  title: 'register goes on',
  meaning: 'apart',
  margin: marginOf,
  find: (draft) => registered(draft).flatMap(goesOn),
  cures: (t, f) => registersFor(t, f, 'diameter'),
  say: (c, speech) => {
    const [a = '', b = ''] = c.of;
    const mm = (value: number): string => say(value, speech, places(speech));
    return c.value >= 0
      ? `the register ${a} clears ${b} by ` +
          `${sayBoth(c, speech)[0]}, and ${b} is known to ± ${sayBoth(c, speech)[1]} only`
      : `the register ${a} is ${mm(-c.value)} too tight for ${b}`;
  },
};

export const registerDepth: CheckKind = {
  id: 'register-depth',
  title: 'faces meet before the register bottoms',
  meaning: 'apart',
  margin: marginOf,
  find: (draft) => registered(draft).flatMap((r) => facesMeet(draft, r)),
  cures: (t, f) => registersFor(t, f, 'depth'),
  say: sayPlain,
};

export const registerEntry: CheckKind = {
  id: 'register-entry',
  title: 'register enters',
  meaning: 'apart',
  margin: marginOf,
  find: (draft) => registered(draft).flatMap((r) => enters(draft, r)),
  cures: (t, f) => registersFor(t, f, 'entry'),
  say: (c, speech) =>
    c.value <= 0
      ? `${c.of[1] ?? ''} does not enter ${c.of[0] ?? ''}: the gasket is ` +
        (c.value > -SLACK ? 'as thick as it stands out' : `${short(-c.value, speech)} thicker than it stands out`)
      : `${c.of[1] ?? ''} and ${c.of[0] ?? ''} enter each other by ${sayBoth(c, speech)[0]} only, where ` +
        `${sayBoth(c, speech)[1]} is needed to hold`,
};

export const registerWall: CheckKind = {
  id: 'register-wall',
  title: 'ledge left under the register',
  meaning: 'apart',
  margin: marginOf,
  find: walls,
  cures: smallerBore,
  say: sayPlain,
};
