import type { Motion } from '@fayplate/core';
import type { Job } from '@fayplate/job';
import { tooCloseToPunch } from '@fayplate/machining';
import { type MatedFace, type Plate, type Side, gasketsOf } from '@fayplate/plate';
import { measuringPdf } from './measuring.js';
import type { Drawing } from '@fayplate/drawing';
import { type PrintedPage, pagePdf, sheetPdf } from './print-page.js';
import { printTemplate, templateSvg } from './print-template.js';
import { drillTemplate } from './template/drill.js';
import { gasketTemplate } from './template/gasket.js';
import { type StopDepth, depthTemplate } from './template/depths.js';
import { type PartFeature, partTemplate } from './template/part.js';
import type { Template } from './template/types.js';
import type { NotPrinted, PrintOptions, PrintedTemplate } from './types.js';

/** What there is to print from: the job and the plate that was designed for it. */
export interface PrintInput {
  readonly job: Pick<Job, 'name' | 'gaskets' | 'faces' | 'machine'>;
  readonly plate: Pick<Plate, 'faces' | 'thickness' | 'material' | 'clocking' | 'holes' | 'bores' | 'outline'> &
    Partial<Pick<Plate, 'centres'>>;
  /** Both faces in the plate's frame; only gaskets need them. */
  readonly mated?: readonly MatedFace[];
  /** Face → from the bench frame of its `rim` points into its own; only outlines like a part need them. */
  readonly benches?: ReadonlyMap<string, Motion>;
}

/** Which template is wanted, and which side faces the eye. */
export interface TemplateWish {
  readonly what: 'drill' | 'gasket';
  /** The side that faces the eye; `A` prints the mirror image of `B`. */
  readonly side: Side;
}

const NO_GASKET =
  'the job asks for no gasket: add a `gaskets` section, such as ' +
  'gaskets: { pump: { hole clearance: 1 mm, outline: plate } }';

/** The template that is wanted, before any paper is chosen; in words why there is none. */
export const templateFor = (
  input: PrintInput,
  wish: TemplateWish,
  options: Pick<PrintOptions, 'speech'>,
): Template | NotPrinted => {
  if (wish.what === 'drill')
    return drillTemplate(input.plate, wish.side, options.speech, tooCloseToPunch(input.plate, input.job));
  const { job, plate, mated = [], benches = new Map<string, Motion>() } = input;
  if (job.gaskets.length === 0) return { ok: false, faults: [NO_GASKET] };
  const read = gasketsOf({ job, plate, mated, benches });
  return read.ok
    ? gasketTemplate(read.gaskets, wish.side, job.machine?.punches ?? null, options.speech, plate.centres)
    : read;
};

/** A drilling or gasket template as PDF bytes, with its JSON and warnings; or what stands against it. */
export const printTemplates = async (
  input: PrintInput,
  options: PrintOptions & TemplateWish,
): Promise<PrintedTemplate | NotPrinted> => {
  const template = templateFor(input, options, options);
  return 'ok' in template ? template : printTemplate(input.job.name, template, options);
};

/** One template by itself: as PDF, or as one SVG at true scale. */
export const sheets = {
  pdf: printTemplates,
  part: (
    job: string,
    part: { readonly name: string; readonly looked: string; readonly features: readonly PartFeature[] },
    options: PrintOptions,
  ): Promise<PrintedTemplate | NotPrinted> =>
    printTemplate(job, partTemplate(part.name, part.looked, part.features, options.speech), options),
  depths: (job: string, depths: readonly StopDepth[], options: PrintOptions): Promise<PrintedTemplate | NotPrinted> =>
    printTemplate(job, depthTemplate(depths, options.speech, options.lettering), options),
  readings: measuringPdf,
  page: pagePdf,
  sheet: (
    drawing: Drawing,
    options: Pick<PrintOptions, 'paper' | 'date' | 'lettering'>,
  ): Promise<PrintedPage | NotPrinted> => sheetPdf(drawing, options),
  svg: (
    input: PrintInput,
    options: TemplateWish & Pick<PrintOptions, 'speech' | 'lettering' | 'notice'>,
  ): ({ readonly ok: true } & ReturnType<typeof templateSvg>) | NotPrinted => {
    const template = templateFor(input, options, options);
    return 'ok' in template ? template : { ok: true, ...templateSvg(input.job.name, template, options) };
  },
};
