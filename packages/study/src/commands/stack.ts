import { solveStack, stackJson, stackReport } from '@fayplate/plate';
import type { Command } from '../command.js';
import { pictureFiles } from '../pictures.js';
import { need } from '../refusal.js';

/** The axial chain: the window for the thickness, shims, worst case and statistical. */
export const stack: Command = async (task) => {
  const { job, speech } = task;
  const spec = need(
    job.stack,
    'this job has no `stack:` section; add the links along the shaft, each with its ±, and the limits that they must meet',
  );
  const result = solveStack(spec);
  return {
    exit: result.ok ? 0 : 1,
    json: stackJson(result),
    report: stackReport(result, speech),
    files: await pictureFiles(task, (draw, letters) => [
      { name: 'stack', drawing: draw.chainPicture(spec, result, speech, letters) },
    ]),
  };
};
