import { trialJson } from '@fayplate/plate';
import type { Command } from '../command.js';
import { Refusal } from '../refusal.js';
import { platedFaces } from '../located.js';
import { studyFor } from '../study.js';
import { trialOf, trialSheet } from '../trial.js';
import { verdictJson, wholeJob } from '../verdict-words.js';

/** Trial assembly: gaps by feeler or clay at three places or more → the final shims at each bolt, and the tilt. */
export const trial: Command = async (task) => {
  const { job, speech } = task;
  const study = studyFor(task);
  const second = platedFaces(job)[1];
  const bolts = (second?.features ?? []).filter((f) => (f.kind === 'hole' || f.kind === 'stud') && !f.vacant);
  const result = trialOf(study);
  if (result === null)
    throw new Refusal(
      `this job has no \`trial:\` section; put the parts together with nothing drawn tight, take the gap at three bolts or more far apart, and write it: trial: { on: ${second?.name ?? 'motor'}, gaps: { ${bolts
        .slice(0, 3)
        .map((b) => `${b.id}: ${job.units === 'in' ? '0.016' : '0.40'}`)
        .join(', ')} }, by: feeler }`,
    );
  const verdict = study.verdict();
  const report = trialSheet(study, speech);
  return {
    exit: result.flat && result.enough && verdict.answer === 'yes' ? 0 : 1,
    json: { ...trialJson(result), verdict: verdictJson(verdict) },
    report: [...report, ...wholeJob(verdict)],
  };
};
