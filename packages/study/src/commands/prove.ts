import { prove as proveDrilled, proveJson, proveReport } from '@fayplate/machining';
import type { Command } from '../command.js';
import { doubtsOf, suspectsOn } from '../doubts.js';
import { refuseUnknownHoles } from '../plate-names.js';
import { fittedWords, platedFaces, studyFor } from '../study.js';

/** As-drilled readings against the plate: does it go on, and by how much. */
export const prove: Command = async (task) => {
  const { job, speech } = task;
  const study = studyFor(task);
  const { plate, mated } = study.plate();
  refuseUnknownHoles(job, plate);
  const doubts = doubtsOf(study);
  const proof = proveDrilled(job, plate, mated);
  return {
    exit: proof.ok === false || !doubts.ok ? 1 : 0,
    json: { ...proveJson(proof), suspects: [...doubts.suspects, ...suspectsOn('drilled', proof.located)] },
    report: [...doubts.report, ...proveReport(proof, speech)],
    more: fittedWords(study, platedFaces(job), speech),
  };
};
