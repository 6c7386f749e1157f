import type { Job } from '@fayplate/job';
import { type Finding, marginOf } from '../checks/check.js';
import type { Draft } from '../draft.js';
import type { PlateHole } from '../types.js';
import { type Change, turned } from './change.js';

/** A failed check's surroundings: what its cures are tried on. */
export interface Trying {
  readonly job: Job;
  readonly draft: Draft;
  readonly findings: readonly Finding[];
  /** Radians clockwise; null where turning cures nothing. */
  readonly turn: number | null;
  readonly say: (mm: number) => string;
}

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
