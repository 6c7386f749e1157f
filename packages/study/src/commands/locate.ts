import { fittedReport, isSound, locateJson, locateReport } from '@fayplate/survey';
import type { Command } from '../command.js';
import { locatedIn } from '../located.js';
import { pictureFiles } from '../pictures.js';

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
  return {
    exit: faces.every(({ located }) => isSound(located)) ? 0 : 1,
    json: locateJson(faces.map((f) => f.located)),
    report: faces.flatMap(({ face, located }) => locateReport(face, located, speech)),
    more: () => faces.flatMap(({ face, located }) => fittedReport(face, located, speech)),
    files: await pictureFiles(task, (draw, letters) =>
      faces.map(({ face, located }) => ({
        name: face.name,
        drawing: draw.facePicture(face, located, speech, letters),
      })),
    ),
  };
};
