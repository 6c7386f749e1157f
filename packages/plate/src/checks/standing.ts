import { type Requirement, distance, sayAll } from '@fayplate/core';
import { CLEAR, standing, standingOut } from '../bores/relief.js';
import { withinBore } from '../bores/shape.js';
import { mostOut, standsOut } from '../bores/registers.js';
import { extraMoved } from '../cures/locating.js';
import { thicker } from '../cures/plate.js';
import { holesOf, shortOf, turnOf } from '../cures/about.js';
import type { Placed } from '../desk.js';
import type { Draft } from '../draft.js';
import { depthInside } from '../outline/inside.js';
import { meets } from '../parts/footprint.js';
import { knownGasket } from '../stack/gasket.js';
import { standsThere } from '../treat/holes.js';
import { threadOf } from '../treat/thread.js';
import type { PlateBore } from '../types.js';
import { sayPlain, short } from '../words/say.js';
import { type CheckKind, type Found, found, marginOf } from './check.js';
import { unknown } from './unknown.js';

/** What stands out of a part under the plate, with the opening that clears it best; null where none does. */
const stood = (
  draft: Draft,
): readonly { readonly p: Placed; readonly bore: PlateBore | null; readonly beside: number }[] =>
  standing(draft.desk, draft.bores).flatMap((p) => {
    const radius = (p.diameter ?? 0) / 2;
    if (depthInside(p.at, draft.outline.path) + radius + CLEAR <= 0) return [];
    const [best] = draft.bores
      .filter((b) => b.kind !== 'spigot' && (b.side === 'through' || b.side === p.side))
      .map((bore) => ({ bore, beside: withinBore(p.at, bore) - radius }))
      .toSorted((x, y) => y.beside - x.beside);
    return [
      best === undefined || best.beside < 0
        ? { p, bore: null, beside: best?.beside ?? -radius }
        : { p, bore: best.bore, beside: best.beside },
    ];
  });

/** The plate clears what stands out of both parts. A place that is unsure by ± needs that much more. */
export const clearBeside: CheckKind = {
  id: 'clear-beside',
  title: 'clear of what stands out of the part',
  meaning: 'apart',
  margin: marginOf,
  find: (draft) =>
    stood(draft).map(({ p, bore, beside }) =>
      found(bore === null ? [p.name] : [p.name, bore.id], beside, bore === null ? 0 : 2 * p.sigma, {
        source: 'geometry; the ± of its place counts',
        at: p.at,
      }),
    ),
  cures: turnOf,
  say: sayPlain,
};

export const clearAbove: CheckKind = {
  id: 'clear-above',
  title: 'clear above what stands out of the part',
  meaning: 'apart',
  margin: marginOf,
  find: (draft) =>
    stood(draft).flatMap(({ p, bore }) => {
      const height = mostOut(p);
      return height === null || bore === null || bore.depth === null
        ? []
        : [
            found([p.name, bore.id], bore.depth + knownGasket(draft.desk.job, p.face.name) - height, 0, {
              source: 'geometry',
              at: p.at,
            }),
          ];
    }),
  cures: turnOf,
  say: sayPlain,
};

/** From one part's face to the other's: plate, shims and gaskets, mm. */
const between = ({ desk }: Draft): number =>
  desk.thickness + desk.shims + desk.faces.reduce((sum, f) => sum + knownGasket(desk.job, f.name), 0);

/** How far it stands past the plate and what lies with it, mm; null where its height is not given. */
const past = (draft: Draft, p: Placed): number | null => {
  const height = mostOut(p);
  return height === null ? null : height - between(draft);
};

const metBy = (draft: Draft, p: Placed): 'yes' | 'no' | 'not known' =>
  meets(draft.parts[p.side === 'A' ? 1 : 0], p.at, (p.diameter ?? 0) / 2, past(draft, p) ?? 0);

/** Spigots of a part that a register of the plate takes: one may stand right through a thin plate. */
const inRegisters = (draft: Draft): readonly Placed[] =>
  draft.desk.placed.filter(
    (p) =>
      p.feature.kind === 'spigot' &&
      p.diameter !== null &&
      draft.bores.some((b) => b.kind === 'recess' && b.feature === p.name),
  );

/**
 * What stands out of one part beside or through the plate must not reach the other part, nor what stands out of that.
 */
const underPart = (draft: Draft): readonly Found[] => {
  const left = draft.desk.placed.filter((p) => p.diameter !== null && standsThere(draft.desk.spec, p));
  const all = [...standing(draft.desk, draft.bores), ...left, ...inRegisters(draft)];
  const source = 'geometry';
  const parts = all.flatMap((p) => {
    const by = past(draft, p);
    const other = draft.desk.faces[p.side === 'A' ? 1 : 0].name;
    return by === null || by <= 0 || metBy(draft, p) !== 'yes'
      ? []
      : [found([p.name, other], by, 0, { source, sense: 'most', at: p.at })];
  });
  const pairs = all.flatMap((a, i) =>
    all.slice(i + 1).flatMap((b) => {
      const [one, other] = [mostOut(a), mostOut(b)];
      const apart = distance(a.at, b.at) - ((a.diameter ?? 0) + (b.diameter ?? 0)) / 2;
      if (a.side === b.side || one === null || other === null || apart >= 0) return [];
      const over = one + other - between(draft);
      return over <= 0 ? [] : [found([a.name, b.name], over, 0, { source, sense: 'most', at: a.at })];
    }),
  );
  return [...parts, ...pairs];
};

export const standingUnderPart: CheckKind = {
  id: 'standing-under-part',
  title: 'what stands out of a part under the other',
  meaning: 'apart',
  margin: marginOf,
  find: underPart,
  cures: (t, f) => [...thicker(t, shortOf(t.draft, f)), ...turnOf(t)],
  say: (c, speech) => `${c.of[0] ?? ''} stands ${short(c.value, speech)} into ${c.of[1] ?? ''}`,
};

/** Studs and dowels that the job leaves out of the plate, and that stand where the plate is. */
const leftStanding = (draft: Draft): readonly Requirement[] =>
  draft.desk.placed.flatMap((p) => {
    const radius = (p.diameter ?? threadOf(p.feature.thread)?.major ?? 0) / 2;
    if (!standsThere(draft.desk.spec, p) || depthInside(p.at, draft.outline.path) + radius <= 0) return [];
    const open = draft.bores.some(
      (b) =>
        b.kind !== 'spigot' &&
        (b.side === 'through' || b.side === p.side) &&
        withinBore(p.at, b) >= radius &&
        (b.depth === null || b.depth >= (mostOut(p) ?? Infinity)),
    );
    return open
      ? []
      : [
          unknown(
            'stud-out',
            `${p.name} gets no hole, and the ${p.feature.kind} stands in the way of the plate: write \`vacant: ` +
              `true\` on ${p.feature.id} where it comes out.`,
            'take it out, and say so in the job',
          ),
        ];
  });

/** What stands out, but not how wide, how far, or whether the other part lies over it. */
export const standingUnknowns = (draft: Draft): readonly Requirement[] => {
  const all = standingOut(draft.desk, draft.bores);
  const near = (p: Placed): boolean => p.diameter !== null && metBy(draft, p) !== 'no';
  const sizes = all.filter((p) => p.diameter === null).map((p) => p.name);
  const heights = all.filter((p) => standsOut(p) === null && near(p)).map((p) => p.name);
  const unsure = all.filter((p) => (past(draft, p) ?? 0) > 0 && p.diameter !== null && metBy(draft, p) === 'not known');
  return [
    ...leftStanding(draft),
    ...(sizes.length === 0
      ? []
      : [
          unknown(
            'standing-size',
            `How wide ${sayAll(sizes)} ${sizes.length === 1 ? 'is' : 'are'} is not known: give the \`diameter\`, ` +
              `so that the plate clears ${sizes.length === 1 ? 'it' : 'them'}.`,
            `measure the diameter, so that the plate clears ${sizes.length === 1 ? 'it' : 'them'}`,
          ),
        ]),
    ...(heights.length === 0
      ? []
      : [
          unknown(
            'standing-height',
            `How far ${sayAll(heights)} ${heights.length === 1 ? 'stands' : 'stand'} out is not given: write ` +
              `\`height\`, so that ${heights.length === 1 ? 'it is' : 'they are'} known not to reach the other part.`,
            `measure it, so that ${heights.length === 1 ? 'it is' : 'they are'} known not to reach the other part`,
          ),
        ]),
    ...jackUnknowns(draft),
    ...unsure.map((p) => {
      const other = draft.desk.faces[p.side === 'A' ? 1 : 0].name;
      return unknown(
        'standing-under-part',
        `Whether ${other} lies over ${p.name}, which stands past ` +
          `the plate, is not known: give the \`rim\` of ${other}.`,
        `measure the outline of ${other} (its diameter, where it is round)`,
      );
    }),
  ];
};

/**
 * A jacking screw pushes on the first part: its end has to land on metal, not on a hole, a bore or a stud, nor past its
 * rim.
 */
const jacks = (draft: Draft): readonly Found[] => {
  const [part] = draft.parts;
  return draft.holes
    .filter((h) => h.as === 'jacking')
    .flatMap((h) => {
      const own = draft.desk.placed.filter((p) => p.face === draft.desk.faces[0] && p.feature.kind !== 'edge');
      const [near] = own
        .map((p) => ({ p, clear: distance(p.at, h) - (p.diameter ?? 0) / 2 - (h.thread?.major ?? h.diameter) / 2 }))
        .toSorted((a, b) => a.clear - b.clear);
      const r = (h.thread?.major ?? h.diameter) / 2;
      const inside = part.known && part.path !== null ? depthInside(h, part.path) - r : Infinity;
      if (inside < (near?.clear ?? Infinity))
        return [found([h.id, part.face], inside, 0, { source: 'geometry', at: h })];
      return near === undefined ? [] : [found([h.id, near.p.name], near.clear, 0, { source: 'geometry', at: h })];
    });
};

/** Jacking screws beyond the part's own fasteners, where nothing tells how far its metal reaches. */
const jackUnknowns = (draft: Draft): readonly Requirement[] => {
  const [part] = draft.parts;
  if (part.known) return [];
  const out = draft.holes.filter((h) => h.as === 'jacking' && (part.path === null || depthInside(h, part.path) < 0));
  return out.length === 0
    ? []
    : [
        unknown(
          'jacking-metal',
          `Whether ${part.face} has metal where ${sayAll(out.map((h) => h.id))} ` +
            `${out.length === 1 ? 'pushes' : 'push'} is not known: give the \`rim\` of ${part.face}.`,
          'hold the plate on the part and look',
        ),
      ];
};

export const jackingOnMetal: CheckKind = {
  id: 'jacking-on-metal',
  title: 'jacking screw pushes on metal',
  meaning: 'weak',
  margin: marginOf,
  find: jacks,
  cures: (t, f) => extraMoved(t, holesOf(t.draft, f)[0]),
  say: sayPlain,
};
