import type { Face, Job } from '@fayplate/job';
import { type Study, studyOf } from '@fayplate/study';
import type { LocatedFace } from '@fayplate/survey';
import type { Part } from './protocol.js';

/** How one question is answered: pieces are handed out as they come; `go` is false once something newer waits. */
export interface Desk {
  readonly tell: (part: Part) => void;
  /** Whether nothing newer waits, after a pause of so many ms in which something newer may come. */
  readonly go: (pause?: number) => Promise<boolean>;
  readonly progress: (what: string) => (done: number, of: number) => void;
}

/**
 * Faces that were located last, by all that goes into it: a reading typed on one face leaves the others as they are.
 */
export const kept = new Map<string, LocatedFace>();
const KEPT = 24;

export const keyOf = (job: Job, face: Face): string =>
  JSON.stringify([face, [...job.instruments]], (_, v: unknown) => (v instanceof Map ? [...v] : v));

/** A study that takes a face as located before where nothing of it has changed. */
export const studyIn = (job: Job, desk: Desk): Study => {
  const search = desk.progress('where the centres are');
  const before = studyOf(job, { progress: search });
  return studyOf(job, {
    trials: 5000,
    progress: desk.progress('the odds that it goes on'),
    located: (face) => {
      const key = keyOf(job, face);
      const known = kept.get(key);
      if (known !== undefined) return known;
      const located = before.located(face);
      if (kept.size >= KEPT) kept.delete(kept.keys().next().value ?? '');
      kept.set(key, located);
      return located;
    },
  });
};
