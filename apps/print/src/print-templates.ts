import type { Job } from '@fayplate/job';
import type { Side } from '@fayplate/plate';
import { printTemplate } from './print-template.js';
import { type DrilledPlate, drillTemplate } from './template/drill.js';
import type { NotPrinted, PrintOptions, Printed } from './types.js';

/** What there is to print from: the job's name and wishes, and the plate that was designed for it. */
export interface PrintInput {
  readonly job: Pick<Job, 'name'>;
  readonly plate: DrilledPlate;
}

export interface TemplateOptions extends PrintOptions {
  readonly what: 'drill';
  /** The side that faces the eye; `A` prints the mirror image of `B`. */
  readonly side: Side;
}

/** The drilling template of a plate as PDF bytes, with its JSON and warnings; or what stands against it. */
export const printTemplates = (input: PrintInput, options: TemplateOptions): Promise<Printed | NotPrinted> =>
  printTemplate(input.job.name, drillTemplate(input.plate, options.side, options.speech), options);
