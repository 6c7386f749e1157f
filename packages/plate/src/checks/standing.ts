import { distance } from '@fayplate/core';
import { CLEAR, standing } from '../bores/relief.js';
import { standsOut } from '../bores/registers.js';
import { extraMoved } from '../cures/locating.js';
import { holesOf, turnOf } from '../cures/trying.js';
import type { Placed } from '../desk.js';
import type { Draft } from '../draft.js';
import { depthInside } from '../outline/inside.js';
import type { PlateBore } from '../types.js';
import { sayPlain } from '../words/say.js';
import { type CheckKind, type Found, found, marginOf } from './check.js';

/** What stands out of a part under the plate, with the opening that clears it best; null where none does. */
const stood = (
  draft: Draft,
): readonly { readonly p: Placed; readonly bore: PlateBore | null; readonly beside: number }[] =>
  standing(draft.desk, draft.bores).flatMap((p) => {
    const radius = (p.diameter ?? 0) / 2;
    if (depthInside(p.at, draft.outline.path) + radius + CLEAR <= 0) return [];
    const [best] = draft.bores
      .filter((b) => b.kind !== 'spigot' && (b.side === 'through' || b.side === p.side))
      .map((bore) => ({ bore, beside: bore.diameter / 2 - distance(bore, p.at) - radius }))
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
      const height = standsOut(p);
      return height === null || bore === null || bore.depth === null
        ? []
        : [found([p.name, bore.id], bore.depth - height, 0, { source: 'geometry', at: p.at })];
    }),
  cures: turnOf,
  say: sayPlain,
};

/** A jacking screw pushes on the first part: its end has to land on metal, not on a hole, a bore or a stud. */
const jacks = (draft: Draft): readonly Found[] =>
  draft.holes
    .filter((h) => h.as === 'jacking')
    .flatMap((h) => {
      const own = draft.desk.placed.filter((p) => p.face === draft.desk.faces[0] && p.feature.kind !== 'edge');
      const [near] = own
        .map((p) => ({ p, clear: distance(p.at, h) - (p.diameter ?? 0) / 2 - (h.thread?.major ?? h.diameter) / 2 }))
        .toSorted((a, b) => a.clear - b.clear);
      return near === undefined ? [] : [found([h.id, near.p.name], near.clear, 0, { source: 'geometry', at: h })];
    });

export const jackingOnMetal: CheckKind = {
  id: 'jacking-on-metal',
  title: 'jacking screw pushes on metal',
  meaning: 'weak',
  margin: marginOf,
  find: jacks,
  cures: (t, f) => extraMoved(t, holesOf(t.draft, f)[0]),
  say: sayPlain,
};
