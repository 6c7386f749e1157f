import type { Draft } from '../draft.js';
import { hasShaft } from '../checks/shaft.js';
import { openingsOf, throughAt } from '../bores/bores.js';
import type { Placed } from '../desk.js';
import type { PlateHole } from '../types.js';
import type { Entering } from './types.js';

type Index = 0 | 1;

/**
 * How far the shaft of a face stands out, mm, where a link of the stack or the old plate's reach says it; else null.
 */
const shaftReach = (draft: Draft, index: Index): number | null => {
  const { job, faces } = draft.desk;
  const other = faces[index === 0 ? 1 : 0].name.toLowerCase();
  const link = (job.stack?.links ?? []).find((l) => {
    const words = l.name.toLowerCase().split(/[\s_-]+/);
    return (words.includes('reach') || words.includes('shaft')) && !words.includes(other);
  });
  return link?.value ?? job.old?.reach?.new ?? null;
};

const shaftOf = (draft: Draft, index: Index): readonly Entering[] => {
  const { desk } = draft;
  const own = desk.faces[index].shaftSizes !== null;
  const alone = !desk.faces.some((f) => f.shaftSizes !== null) && index === 1 && hasShaft(draft);
  if (desk.spec.nothingPasses || (!own && !alone)) return [];
  const at = desk.mated[index].axis?.at ?? desk.mated[index].centre;
  const into = throughAt(at, openingsOf(draft.bores, draft.holes), desk.thickness).map((b) => b.id);
  return into.length === 0
    ? []
    : [{ what: 'shaft', of: [desk.faces[index].name], into, stands: shaftReach(draft, index) }];
};

/** The least, null where one is not known: what is said for all of a kind must hold for each. */
const farthest = (all: readonly (number | null)[]): number | null =>
  all.some((s) => s === null) ? null : Math.max(...all.map((s) => s ?? 0));

const pins = (draft: Draft, index: Index, what: 'studs' | 'dowels', kind: 'stud' | 'dowel'): readonly Entering[] => {
  const all = draft.desk.placed
    .filter((p) => p.face === draft.desk.faces[index] && p.feature.kind === kind)
    .flatMap((p): readonly { readonly p: Placed; readonly hole: PlateHole }[] => {
      const hole = draft.holes.find((h) => h.feature === p.name);
      return hole === undefined ? [] : [{ p, hole }];
    });
  return all.length === 0
    ? []
    : [
        {
          what,
          of: all.map(({ p }) => p.feature.id),
          into: all.map(({ hole }) => hole.id),
          stands: farthest(all.map(({ p }) => p.feature.stands)),
        },
      ];
};

/** What meets as a part and the plate come together, the farthest first; those of unknown length before all others. */
export const enteringAt = (draft: Draft, index: Index): readonly Entering[] => {
  const face = draft.desk.faces[index];
  const bores = draft.bores.filter((b) => b.part?.face === face.name);
  const featureOf = (name: string | null): Placed | undefined => draft.desk.placed.find((p) => p.name === name);
  const registers = bores.flatMap((b): readonly Entering[] => {
    const id = b.part?.feature ?? '';
    const out = featureOf(b.feature)?.feature;
    if (b.kind === 'recess') return [{ what: 'spigot', of: [id], into: [b.id], stands: out?.stands ?? b.depth }];
    if (b.kind === 'spigot') return [{ what: 'raised spigot', of: [b.id], into: [id], stands: b.depth }];
    return b.kind === 'relief' ? [{ what: 'boss', of: [id], into: [b.id], stands: out?.height ?? null }] : [];
  });
  const set = draft.holes.filter((h) => h.as === 'set stud' && h.part?.face === face.name);
  return [
    ...shaftOf(draft, index),
    ...pins(draft, index, 'studs', 'stud'),
    ...pins(draft, index, 'dowels', 'dowel'),
    ...(set.length === 0
      ? []
      : [
          {
            what: 'set studs' as const,
            of: set.map((h) => h.id),
            into: set.map((h) => h.part?.feature ?? ''),
            stands: null,
          },
        ]),
    ...registers,
  ].toSorted((a, b) => (b.stands ?? Infinity) - (a.stands ?? Infinity));
};
