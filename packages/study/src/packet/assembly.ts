import type { Speech } from '@fayplate/core';
import type { Lettering } from '@fayplate/drawing';
import { assemblyPicture, explodedPicture } from '@fayplate/pictures';
import { assemblyReport } from '@fayplate/plate';
import type { Study } from '../study.js';
import type { Section } from './sections.js';

/** How plate and parts go together, and apart again, with the pictures that are given. */
export const assemblySection = (study: Study, speech: Speech, pictures: Section['pictures']): Section => {
  const { plate } = study.plate();
  const [first, second] = plate.assembly.order;
  return {
    title: `Putting it together: ${first}, ${plate.joint === undefined ? 'plate' : `the ${plate.joint.piece}`}, ${second}`,
    report: assemblyReport(plate, study.job, study.stack(), { ...speech, atBench: true }),
    pictures,
  };
};

/** The name of the exploded view among its pictures. */
export const EXPLODED = 'exploded';

/** Parts and plate pulled apart along the shaft, and the order in which the fasteners are tightened. */
export const assemblyPictures = (study: Study, speech: Speech, letters: Lettering): Section['pictures'] => {
  const { plate, mated } = study.plate();
  const apart = explodedPicture({ job: study.job, plate, mated, benches: study.benches() }, speech, letters);
  return [
    { name: EXPLODED, drawing: apart },
    { name: 'assembly', drawing: assemblyPicture(plate, letters) },
  ];
};
