import type { Face, Job } from '@fayplate/job';
import { type LocatedFace, locateFace } from '@fayplate/survey';
import { NoAnswer } from './answer.js';
import { asideOn } from './options.js';

export interface LocateChoices {
  readonly setAside?: readonly string[];
  readonly next?: boolean;
}

/** One face of a job, located; an adjustment that did not settle is Fayplate's own fault and stops the command. */
export const locatedIn = (job: Job, face: Face, { setAside, next = false }: LocateChoices): LocatedFace => {
  const located = locateFace({ face, instruments: job.instruments }, { setAside: asideOn(face.name, setAside), next });
  if (!located.stopped.converged) {
    throw new NoAnswer(`face ${face.name}: the adjustment did not settle (${located.stopped.why}). This is Fayplate's fault, not yours; please keep the job file and report it.`, {
      face: face.name,
      stopped: located.stopped,
      fit: located.fit,
    });
  }
  return located;
};
