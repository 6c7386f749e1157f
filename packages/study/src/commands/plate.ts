import type { Report, Speech } from '@fayplate/core';
import { movesJson, movesReport, oldDecides, oldJson, oldReport, plateJson, plateReport } from '@fayplate/plate';
import type { Command } from '../command.js';
import { doubtsOf } from '../doubts.js';
import { pictureFiles } from '../pictures.js';
import { platedFaces } from '../located.js';
import type { Study } from '../types.js';
import { fittedWords, studyFor } from '../study.js';
import { verdictBlocks, verdictJson } from '../verdict-words.js';

/**
 * All that is said of a plate, the verdict on the whole job first. Throws a `Refusal` in words where none can be drawn.
 */
export const plateWords = (study: Study, speech: Speech, verbose = false): Report => [
  ...plateReport(study.plate().plate, speech, verbose, verdictBlocks(study.verdict())),
  ...(study.job.old !== null && oldDecides(study.job) ? oldReport(study.job.old, speech) : []),
  ...movesReport(study.moves(), speech),
];

/** The plate: holes, treatments, outline, and every check with its value, limit and source. */
export const plate: Command = async (task) => {
  const { job, options, speech } = task;
  const study = studyFor(task);
  const { plate: made, mated } = study.plate();
  const files = await pictureFiles(task, (draw, letters) => [
    { name: 'side-A', drawing: draw.platePicture(made, mated, 'A', speech, letters) },
    { name: 'side-B', drawing: draw.platePicture(made, mated, 'B', speech, letters) },
    { name: 'section', drawing: draw.sectionPicture(made, speech, letters) },
    { name: 'clocking', drawing: draw.clockingPicture(made, speech, letters) },
  ]);
  const doubts = doubtsOf(study);
  const verdict = study.verdict();
  const { old } = job;
  const moves = study.moves();
  return {
    exit: verdict.answer === 'yes' ? 0 : 1,
    json: {
      ...plateJson(made),
      suspects: doubts.suspects,
      verdict: verdictJson(verdict),
      ...(old === null ? {} : { old: oldJson(old) }),
      ...(moves === null ? {} : { moves: movesJson(moves) }),
    },
    report: plateWords(study, speech, options.verbose === true),
    more: fittedWords(study, platedFaces(job), speech),
    files,
  };
};
