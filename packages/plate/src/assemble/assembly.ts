import type { Draft } from '../draft.js';
import { reachable } from '../checks/heads.js';
import { hasGasket, gasketUnder } from '../stack/gasket.js';
import type { FastenerHead, PlateHole } from '../types.js';
import { crosswise, studLengths, toolBehind, toolOn } from './tools.js';
import { enteringAt } from './entering.js';
import type { Assembly, Seal, Tightening } from './types.js';

type Index = 0 | 1;

/**
 * Which part the plate goes on first: the one whose fasteners the other covers, for sure or perhaps; else the one whose
 * nuts or heads lie on the plate, since they are handier while nothing is in front of them; else the first.
 */
const firstOf = (draft: Draft): { readonly first: Index; readonly because: Assembly['because'] } => {
  const sides = ([0, 1] as const).map((index) => reachable(draft, index));
  const count = (index: Index, met: 'yes' | 'not known'): number =>
    (sides[index] ?? []).filter((r) => r.met === met).length;
  for (const [met, because] of [
    ['yes', 'covered'],
    ['not known', 'may be covered'],
  ] as const) {
    const [a, b] = [count(0, met), count(1, met)];
    if (a > 0 || b > 0) return { first: a >= b ? 0 : 1, because };
  }
  const [a, b] = sides.map((s) => s.length);
  return { first: (b ?? 0) > (a ?? 0) ? 1 : 0, because: 'either' };
};

const fastenerOf = (hole: PlateHole, head: FastenerHead | null): Tightening['fastener'] =>
  head?.kind ?? (hole.fastening?.kind === 'set stud' || hole.fastening?.kind === 'stud' ? 'nut' : 'bolt');

/** The fasteners of one part, those alike together, crosswise. */
const tighteningOf = (draft: Draft, index: Index, first: Index): readonly Tightening[] => {
  const face = draft.desk.faces[index].name;
  const covered = new Map(reachable(draft, index).map((r) => [r.h.hole.id, r.met]));
  const own = draft.holes.filter((h) => h.part?.face === face && h.fastening !== null && h.fastening.kind !== 'dowel');
  const alike = new Map<string, { readonly like: Omit<Tightening, 'holes'>; readonly holes: PlateHole[] }>();
  for (const i of own.length === 0 ? [] : crosswise(own)) {
    const hole = own[i];
    if (hole === undefined) continue;
    const head = hole.fastening?.head ?? null;
    const like = {
      face,
      thread: hole.fastening?.thread ?? null,
      fastener: fastenerOf(hole, head),
      side: head?.side ?? null,
      covered: index === first ? (covered.get(hole.id) ?? 'no') : 'no',
      tool: head === null ? toolBehind(hole) : toolOn(draft, hole, head),
    } as const;
    // Of those alike in all else the least room is given for all.
    const key = JSON.stringify([
      like.thread,
      like.fastener,
      like.side,
      like.covered,
      like.tool?.size,
      like.tool?.outside,
    ]);
    const known = alike.get(key);
    if (known === undefined) alike.set(key, { like, holes: [hole] });
    else {
      known.holes.push(hole);
      const rooms = [known.like.tool?.room, like.tool?.room].filter((r) => r != null);
      if (known.like.tool !== null && rooms.length > 0)
        alike.set(key, { ...known, like: { ...known.like, tool: { ...known.like.tool, room: Math.min(...rooms) } } });
    }
  }
  return [...alike.values()].map(({ like, holes }) => ({ ...like, holes: holes.map((h) => h.id) }));
};

const sealsOf = (draft: Draft): readonly Seal[] =>
  draft.desk.faces.flatMap(({ name }): readonly Seal[] =>
    hasGasket(draft.desk.job, name)
      ? [
          {
            face: name,
            thickness: gasketUnder(draft.desk.job, name),
            through: draft.holes
              .filter((h) => (h.as === 'tapped' || h.as === 'set stud') && h.depth === null)
              .map((h) => h.id),
          },
        ]
      : [],
  );

/** How the plate and its two parts are put together. */
export const assemblyOf = (draft: Draft): Assembly => {
  const { first, because } = firstOf(draft);
  const order = first === 0 ? ([0, 1] as const) : ([1, 0] as const);
  const { faces } = draft.desk;
  return {
    order: [faces[order[0]].name, faces[order[1]].name],
    because,
    enters: new Map(order.map((i) => [faces[i].name, enteringAt(draft, i)])),
    tightening: order.flatMap((i) => tighteningOf(draft, i, first)),
    studs: studLengths(draft),
    seals: sealsOf(draft),
  };
};
