import type { Job } from '@fayplate/job';
import type { Finding } from '../checks/check.js';
import type { Draft } from '../draft.js';
import type { PlateHole } from '../types.js';

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
  const short = f.sense === 'least' ? f.limit - f.value : f.value - f.limit;
  const [hole] = holesOf(draft, f);
  return f.unit === 'd' && hole !== undefined ? short * Math.max(hole.diameter, hole.thread?.major ?? 0) : short;
};
