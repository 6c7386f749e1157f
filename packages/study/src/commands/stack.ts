import { oldJson, oldReport, oldThickness, solveStack, stackJson, stackReport } from '@fayplate/plate';
import type { Command } from '../command.js';
import { pictureFiles } from '../pictures.js';
import { need } from '../refusal.js';
import { studyFor } from '../study.js';
import { verdictJson, wholeJob } from '../verdict-words.js';
import { verdictSoFar } from '../verdict.js';

/** The axial chain: the window for the thickness, shims, worst case and statistical. */
export const stack: Command = async (task) => {
  const { job, speech } = task;
  const { old } = job;
  if (job.stack === null && old !== null)
    return {
      exit: oldThickness(old).value > 0 ? 0 : 1,
      json: { old: oldJson(old) },
      report: oldReport(old, speech),
    };
  const spec = need(
    job.stack,
    'this job has no `stack:` section, and no `old:` one; add the links along the shaft, each with its ±, and the ' +
      'limits that they must meet',
  );
  const result = solveStack(spec);
  const verdict = verdictSoFar(studyFor({ ...task, warn: () => undefined }));
  return {
    exit: result.ok ? 0 : 1,
    json: {
      ...stackJson(result),
      verdict: verdictJson(verdict),
      ...(old === null ? {} : { old: oldJson(old) }),
    },
    report: [...stackReport(result, speech), ...(old === null ? [] : oldReport(old, speech)), ...wholeJob(verdict)],
    files: await pictureFiles(task, (draw, letters) => [
      { name: 'stack', drawing: draw.chainPicture(spec, result, speech, letters) },
    ]),
  };
};
