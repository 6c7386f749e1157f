import { speechFor } from '@fayplate/core';
import { look, standardFace } from '@fayplate/handbook';
import { standardPicture } from '@fayplate/pictures';
import { lookWords } from '@fayplate/study';
import { letters } from '../letters.js';
import type { LookView } from '../shown.js';
import { drawnOf } from './drawn.js';

/** One thing of the handbook, or of the words of the job file (`words`), in the words that the command line prints. */
export const lookView = (kind: string, what: string): LookView => {
  const found = kind === 'words' ? lookWords(what) : look(kind, what);
  if (!found.ok)
    return {
      refused: `${found.why}${found.nearest === null ? '' : `; did you mean ${found.nearest}?`}`,
      report: [],
      face: null,
    };
  const face = kind === 'face' ? standardFace(what) : null;
  return {
    refused: null,
    report: found.report,
    face:
      face === null
        ? null
        : { name: face.name, picture: drawnOf(face.name, standardPicture(face, speechFor('mm'), letters())) },
  };
};
