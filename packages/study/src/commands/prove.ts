import { cureFor } from '@fayplate/core';
import {
  assembledJson,
  assembledReport,
  assembledWith,
  midwayJson,
  midwayReport,
  prove as proveDrilled,
  proveJson,
  proveReport,
} from '@fayplate/machining';
import type { Command } from '../command.js';
import { doubtsOf, suspectsOn } from '../doubts.js';
import { restFiles, restReport } from '../rest.js';
import { platedFaces } from '../located.js';
import { fittedWords, studyFor } from '../study.js';
import { asParagraph, verdictBlocks, verdictJson } from '../verdict-words.js';

/**
 * As-drilled readings against the plate: does it go on, and by how much; and where it does not, or is drilled in part,
 * how to go on.
 */
export const prove: Command = async (task) => {
  const { job, options, speech } = task;
  const study = studyFor(task);
  const { plate, mated } = study.plate();
  const doubts = doubtsOf(study);
  const proof = study.proof() ?? proveDrilled(study.named(), plate, mated);
  const verdict = study.verdict();
  // Notes that whoever holds the drilled plate can settle: the answer stands without them.
  const minded = verdict.requirements.filter((r) => r.id === 'drilled-from' || r.id === 'drilled-fit');
  const midway = study.midway();
  const files = await restFiles(study, task);
  const assembled = assembledWith(job, plate, mated);
  return {
    exit: verdict.answer === 'yes' ? 0 : 1,
    json: {
      ...proveJson(proof),
      ...(midway === null ? {} : { midway: midwayJson(midway) }),
      ...(assembled === null ? {} : { assembled: assembledJson(assembled) }),
      suspects: [...doubts.suspects, ...suspectsOn('drilled', proof.located)],
      verdict: verdictJson(verdict),
    },
    report: [
      ...verdictBlocks(verdict),
      ...assembledReport(assembled, plate, speech),
      ...minded.map((r) => ({
        kind: 'paragraph' as const,
        text: `Mind: ${r.because}; ${cureFor(r, speech) ?? ''}.`,
      })),
      ...proveReport(proof, speech).map(asParagraph),
      ...(midway === null ? [] : midwayReport(midway, speech)),
      ...restReport(study, options.way, speech),
    ],
    more: fittedWords(study, platedFaces(job), speech),
    files,
  };
};
