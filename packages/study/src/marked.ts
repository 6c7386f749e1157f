import type { Picture } from '@fayplate/drawing';
import { type Job, fingerprintOf } from '@fayplate/job';

/** The job's name with its fingerprint, as every sheet and file carries it. */
export const markedName = (job: Job): string => `${job.name} · ${fingerprintOf(job)}`;

/** The job under that name, for what is printed. */
export const marked = (job: Job): Job => ({ ...job, name: markedName(job) });

/** A picture that says below it of which state of the job it is. */
export const withMark = (picture: Picture, job: Job): Picture => ({
  ...picture,
  notes: [...picture.notes, `Job ${fingerprintOf(job)}`],
});
