import { type Report, type Requirement, type Speech, speechFor } from '@fayplate/core';
import { type TrialResult, solveTrial, trialReport, trialRequirements } from '@fayplate/plate';
import { Refusal } from './refusal.js';
import type { Study } from './types.js';

/** What the trial assembly says; null where none was made. Refuses in words gaps that tell nothing. */
export const trialOf = (study: Study): TrialResult | null => {
  const { job } = study;
  if (job.trial == null) return null;
  const solved = solveTrial(job, job.trial, study.plate().mated);
  if (!solved.ok) throw new Refusal(`trial: ${solved.why}`);
  return solved.result;
};

/** What the trial assembly asks of the whole job. */
export const trialAsks = (study: Study): readonly Requirement[] => {
  const result = trialOf(study);
  return result === null ? [] : trialRequirements(study.job, result, speechFor(study.job.units));
};

/** The sheet of the trial assembly: nothing where none was made. */
export const trialSheet = (study: Study, speech: Speech): Report => {
  const result = trialOf(study);
  return result === null || study.job.trial == null ? [] : trialReport(result, study.job.trial, speech);
};
