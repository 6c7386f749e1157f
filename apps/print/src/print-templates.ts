import type { Job } from '@fayplate/job';
import type { Side } from '@fayplate/plate';
import { printTemplate } from './print-template.js';
import { type DrilledPlate, drillTemplate } from './template/drill.js';
import { type Gasket, type Punch, gasketTemplate } from './template/gasket.js';
import type { Template } from './template/types.js';
import type { NotPrinted, PrintOptions, Printed } from './types.js';

/** What there is to print from: the job's name and wishes, the plate that was designed for it, and its gaskets. */
export interface PrintInput {
  readonly job: Pick<Job, 'name'>;
  readonly plate: DrilledPlate;
  readonly gaskets: readonly Gasket[];
  /** Hole punches on hand; null: not stated. */
  readonly punches: readonly Punch[] | null;
}

export interface TemplateWish {
  readonly what: 'drill' | 'gasket';
  /** The side that faces the eye; `A` prints the mirror image of `B`. */
  readonly side: Side;
}

/** The template that is wanted, before any paper is chosen; in words why there is none. */
export const templateFor = (input: PrintInput, wish: TemplateWish, options: Pick<PrintOptions, 'speech'>): Template | NotPrinted => {
  if (wish.what === 'drill') return drillTemplate(input.plate, wish.side, options.speech);
  if (input.gaskets.length === 0) return { ok: false, faults: ['the job asks for no gasket: add a `gaskets` section, such as gaskets: { pump: { hole clearance: 1 mm, outline: plate } }'] };
  return gasketTemplate(input.gaskets, wish.side, input.punches, options.speech);
};

/** A drilling or gasket template as PDF bytes, with its JSON and warnings; or what stands against it. */
export const printTemplates = async (input: PrintInput, options: PrintOptions & TemplateWish): Promise<Printed | NotPrinted> => {
  const template = templateFor(input, options, options);
  return 'ok' in template ? template : printTemplate(input.job.name, template, options);
};
