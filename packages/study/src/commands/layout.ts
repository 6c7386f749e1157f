import { layoutJson, layoutReport } from '@fayplate/layout';
import type { Command } from '../command.js';
import { pictureFiles } from '../pictures.js';
import { fittedWords, studyFor } from '../study.js';
import { verdictJson, wholeJob } from '../verdict-words.js';
import { verdictSoFar } from '../verdict.js';

/** Centres → the layout that the maker most likely intended, with the odds. */
export const layout: Command = async (task) => {
  const { job, speech } = task;
  const study = studyFor(task);
  const faces = job.faces.map((face) => ({ face, located: study.located(face), layout: study.layout(face) }));
  const verdict = verdictSoFar(study);
  return {
    exit: faces.every((f) => f.layout.chosen !== null) ? 0 : 1,
    json: { ...layoutJson(faces.map((f) => f.layout)), verdict: verdictJson(verdict) },
    report: [...faces.flatMap((f) => layoutReport(f.face, f.located, f.layout, speech)), ...wholeJob(verdict)],
    more: fittedWords(study, job.faces, speech),
    files: await pictureFiles(task, (draw, letters) =>
      faces.map((f) => ({
        name: f.face.name,
        drawing: draw.layoutPicture(f.face, f.located, f.layout, speech, letters),
      })),
    ),
  };
};
