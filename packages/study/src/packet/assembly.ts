import type { Report, Speech } from '@fayplate/core';
import type { Lettering, Picture } from '@fayplate/drawing';
import { assemblyPicture, explodedPicture } from '@fayplate/pictures';
import { type Side, assemblyReport } from '@fayplate/plate';
import type { Study } from '../types.js';

/** One part of the packet, before any medium: words, then pictures. */
export interface Section {
  /** Its verdict is that of the whole job, which stands above. */
  readonly saysWhole?: true;
  readonly title: string;
  /** Judges readings by themselves, and rests on none that are not settled. */
  readonly own?: boolean;
  readonly report: Report;
  /** The report where its cuts and pictures stand on sheets of their own. */
  readonly besideCuts?: Report;
  /** A picture that is read at the machine has a page to itself. */
  readonly pictures: readonly {
    readonly name: string;
    readonly drawing: Picture;
    readonly whole?: boolean;
    /** Of a setting: its side, and the first cut of each hole. */
    readonly cuts?: { readonly side: Side; readonly first: ReadonlyMap<string, number> };
  }[];
}

/** How plate and parts go together, and apart again, with the pictures that are given. */
export const assemblySection = (study: Study, speech: Speech, pictures: Section['pictures']): Section => {
  const { plate } = study.plate();
  const [first, second] = plate.assembly.order;
  return {
    title:
      `Putting it together: ${first}, ` +
      (plate.joint === undefined ? 'plate' : `the ${plate.joint.piece}`) +
      `, ${second}`,
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
