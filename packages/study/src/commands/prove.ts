import { prove as proveDrilled, proveJson, proveReport } from '@fayplate/machining';
import type { Command } from '../command.js';
import { doubtsOf, suspectsOn } from '../doubts.js';
import { fittedWords, platedFaces, studyFor } from '../study.js';
import { asParagraph, verdictBlocks, verdictJson } from '../verdict.js';

/** As-drilled readings against the plate: does it go on, and by how much. */
export const prove: Command = async (task) => {
  const { job, speech } = task;
  const study = studyFor(task);
  const { plate, mated } = study.plate();
  const doubts = doubtsOf(study);
  const proof = study.proof() ?? proveDrilled(study.named(), plate, mated);
  const verdict = study.verdict();
  return {
    exit: verdict.answer === 'yes' ? 0 : 1,
    json: {
      ...proveJson(proof),
      suspects: [...doubts.suspects, ...suspectsOn('drilled', proof.located)],
      verdict: verdictJson(verdict),
    },
    report: [...verdictBlocks(verdict), ...proveReport(proof, speech).map(asParagraph)],
    more: fittedWords(study, platedFaces(job), speech),
  };
};
