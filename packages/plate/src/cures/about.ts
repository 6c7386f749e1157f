import { type Finding, type Trying, marginOf } from '../checks/check.js';
import type { Draft } from '../draft.js';
import type { PlateHole } from '../types.js';
import { type Change, turned } from './change.js';

/** `pump` of `pump.P1`. */
export const faceOf = (hole: Pick<PlateHole, 'part'>): string | null => hole.part?.face ?? null;
export const holesOf = (draft: Draft, f: Finding): readonly PlateHole[] =>
  draft.holes.filter((h) => f.of.includes(h.id));
/** By how much it misses, mm; diameters turned into mm by the first hole's. */
export const shortOf = (draft: Draft, f: Finding): number => {
  const [hole] = holesOf(draft, f);
  return -marginOf(f) * (f.unit === 'd' && hole !== undefined ? Math.max(hole.diameter, hole.thread?.major ?? 0) : 1);
};

/** The turn that may cure it, where turning may. */
export const turnOf = (t: Trying): readonly Change[] =>
  t.turn === null ? [] : [turned(t.job, t.draft.desk.clocking, t.turn)];

/** The first of them that the plate has of its own. */
export const extraOf = (holes: readonly PlateHole[]): PlateHole | undefined =>
  holes.find((h) => h.as === 'jacking' || h.as === 'lifting');

/**
 * Names that stay when holes are numbered again: the feature that a hole or bore is for, else which of its kind it is.
 */
const namesIn = (draft: Draft): ReadonlyMap<string, string> => {
  const own = draft.holes.filter((h) => h.feature === null);
  return new Map([
    ...draft.holes.map((h): [string, string] => [
      h.id,
      h.feature === null ? `${h.as} ${own.indexOf(h)}` : `hole ${h.feature}`,
    ]),
    ...draft.bores.map((b): [string, string] => [b.id, `${b.kind} ${b.feature ?? ''}`]),
  ]);
};

/** What a finding of this draft is about, so that the same can be looked for in another draft of the job. */
export const aboutIn = (draft: Draft): ((f: Finding) => string) => {
  const names = namesIn(draft);
  return (f) => [f.id, ...f.of.map((id) => names.get(id) ?? id).toSorted()].join('|');
};
