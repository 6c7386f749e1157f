import type { Speech } from '@fayplate/core';
import type { Lettering } from '@fayplate/drawing';
import { assemblyPicture } from '@fayplate/pictures';
import { assemblyReport } from '@fayplate/plate';
import type { Study } from '../study.js';
import type { Section } from './sections.js';

/** The assembly sheet: one page on how plate and parts go together, and apart again. */
export const assemblySection = (study: Study, speech: Speech, letters: Lettering): Section => {
  const { plate } = study.plate();
  const [first, second] = plate.assembly.order;
  return {
    title: `Putting it together: ${first}, plate, ${second}`,
    report: assemblyReport(plate, study.job, study.stack(), { ...speech, atBench: true }),
    pictures: [{ name: 'assembly', drawing: assemblyPicture(plate, letters) }],
  };
};
