import { recognise, recognitionJson, recognitionReport } from '@fayplate/layout';
import { fittedReport, isSound, locateJson, locateReport } from '@fayplate/survey';
import type { Command } from '../command.js';
import { locatedIn } from '../located.js';
import { pictureFiles } from '../pictures.js';
import { studyFor } from '../study.js';
import { uncheckedBlocks, uncheckedOn } from '../unchecked.js';
import { verdictJson, verdictSoFar, wholeJob } from '../verdict.js';

/** Each face's own document with the standard that it may be, as `standard`. */
const withStandards = ({ faces }: ReturnType<typeof locateJson>, found: readonly ReturnType<typeof recognise>[]) => ({
  faces: Object.fromEntries(
    Object.entries(faces).map(([name, face]) => [
      name,
      { ...face, standard: recognitionJson(found.find((f) => f?.name === name) ?? null) },
    ]),
  ),
});

/** Readings → centres with their ±; suspect readings; what to measure next. */
export const locate: Command = async (task) => {
  const { job, options, speech, warn, world } = task;
  const { progress } = world;
  const choices = {
    setAside: options.setAside ?? [],
    next: true,
    warn,
    ...(progress === undefined ? {} : { progress }),
  };
  const faces = job.faces.map((face) => ({ face, located: locatedIn(job, face, choices) }));
  const verdict = verdictSoFar(studyFor({ ...task, warn: () => undefined }));
  const found = faces.map(({ face, located }) => recognise(face, located));
  return {
    exit: faces.every(({ located }) => isSound(located)) ? 0 : 1,
    json: {
      ...withStandards(locateJson(faces.map((f) => f.located)), found),
      unchecked: Object.fromEntries(faces.map(({ face, located }) => [face.name, uncheckedOn(located)])),
      verdict: verdictJson(verdict),
    },
    report: [
      ...faces.flatMap(({ face, located }, i) => [
        ...locateReport(face, located, speech),
        ...uncheckedBlocks(face.name, uncheckedOn(located)),
        ...recognitionReport(found[i] ?? null, speech),
      ]),
      ...wholeJob(verdict),
    ],
    more: () => faces.flatMap(({ face, located }) => fittedReport(face, located, speech)),
    files: await pictureFiles(task, (draw, letters) =>
      faces.map(({ face, located }) => ({
        name: face.name,
        drawing: draw.facePicture(face, located, speech, letters),
      })),
    ),
  };
};
