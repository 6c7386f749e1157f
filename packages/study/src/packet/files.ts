import type { Report, Verdict } from '@fayplate/core';
import { type Lettering, captioned, svg } from '@fayplate/drawing';
import { type Job, fingerprintOf } from '@fayplate/job';
import { layoutJson } from '@fayplate/layout';
import { type MachinistTable, machinistTable, tableJson } from '@fayplate/machining';
import { plateJson, stackJson } from '@fayplate/plate';
import { locateJson } from '@fayplate/survey';
import type { MadeFile, Task } from '../command.js';
import { type MachineMade, machineFormats } from '../formats.js';
import { page, rulerSvg } from '../html/page.js';
import { fileNamesOf, marked, markedName, withMark } from '../pictures.js';
import { printSettings } from '../print-settings.js';
import { printerFor } from '../printers.js';
import type { LoneSheet, Press } from '../printing.js';
import { Refusal } from '../refusal.js';
import type { Study } from '../types.js';
import { noticeOf, verdictJson, withheld } from '../verdict-words.js';
import { unsettledOf } from '../verdict.js';
import type { Section } from './assembly.js';
import { packetSections } from './sections.js';
import { workshopSheet } from './workshop.js';

/** A whole packet, or in words why there is none. */
type PacketMade =
  | {
      readonly ok: true;
      readonly sound: boolean;
      readonly verdict: Verdict;
      readonly files: readonly MadeFile[];
      readonly verdicts: Report;
      readonly warnings: readonly string[];
    }
  | { readonly ok: false; readonly faults: readonly string[] };

const json = (job: Job, command: string, value: object): string =>
  `${JSON.stringify({ fayplate: 1, job: job.name, fingerprint: fingerprintOf(job), command, ...value }, null, 2)}\n`;

/** The packet as one web page, with a ruler at its end that is true in print. */
const webPage = (job: string, sections: readonly Section[], letters: Lettering): string =>
  page(job, [
    ...sections.map((s) => ({
      title: s.title,
      report: s.report,
      pictures: s.pictures.map(({ drawing, whole, cuts }) => ({
        caption: drawing.title,
        notes: drawing.notes,
        svg: svg(drawing, letters),
        scaled: drawing.scale !== null,
        true: false,
        whole: whole === true,
        ...(cuts === undefined ? {} : { cuts }),
      })),
    })),
    {
      title: 'Ruler',
      report: [
        {
          kind: 'paragraph',
          text: 'Printed at 100 %, this ruler is true. Hold a steel rule against it before you trust any printed size.',
        },
      ],
      pictures: [{ caption: '100 mm', notes: [], svg: rulerSvg(), scaled: true, true: true, whole: false }],
    },
  ]);

const pictureFiles = (job: Job, sections: readonly Section[], letters: Lettering): readonly MadeFile[] => {
  const drawn = sections.flatMap((s) => s.pictures);
  const names = fileNamesOf(drawn.map((p) => p.name));
  return drawn.map((p, i) => ({
    name: `${names[i] ?? p.name}.svg`,
    says: p.drawing.title,
    content: svg(captioned(withMark(p.drawing, job), letters), letters),
  }));
};

/** The same answers for programs, one document each. */
const documents = (study: Study, table: MachinistTable): readonly MadeFile[] => {
  const { job } = study;
  const { plate } = study.plate();
  const stack = study.stack();
  const one = (command: string, says: string, value: object): MadeFile => ({
    name: `${command}.json`,
    says,
    content: json(job, command, value),
  });
  return [
    one('locate', 'centres with their covariance', locateJson(job.faces.map((f) => study.located(f)))),
    one('layout', 'layouts with their odds', layoutJson(job.faces.map((f) => study.layout(f)))),
    ...(stack === null ? [] : [one('stack', 'the axial chain', stackJson(stack))]),
    one('plate', 'the plate with every check', { ...plateJson(plate), verdict: verdictJson(study.verdict()) }),
    one('table', 'the machinist’s table', tableJson(table)),
  ];
};

/** The drawing for another shop, a file of its own on its own paper; where no sheet holds it, why. */
const drawingFor = (
  study: Study,
  table: MachinistTable,
  letters: Lettering,
): { readonly sheets: readonly LoneSheet[]; readonly warnings: readonly string[] } => {
  const { plate, mated } = study.plate();
  try {
    const made =
      table.unit === study.job.units
        ? ({ ok: true, table } as const)
        : machinistTable(plate, study.job, { unit: study.job.units }, mated);
    if (!made.ok) return { sheets: [], warnings: made.faults };
    const { drawing, paper } = workshopSheet(study, made.table, undefined, letters);
    const says = `a drawing for another shop, on ${paper.name}`;
    return { sheets: [{ name: 'drawing.pdf', says, drawing, paper: paper.name }], warnings: [] };
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    return { sheets: [], warnings: [`drawing.pdf: ${error.message}`] };
  }
};

/** Every file of the packet, made before any is written: a job that cannot be finished leaves nothing behind. */
export const packetFiles = async (
  study: Study,
  { options, speech, world }: Task,
  press: Press,
): Promise<PacketMade> => {
  const { job } = study;
  const verdict = study.verdict();
  const unsettled = unsettledOf(study);
  const notice = noticeOf(verdict, unsettled);
  const settings = { ...printSettings(job, options, printerFor(options.printer, job, world)), speech, notice };
  const letters = await world.lettering();
  const { plate, mated } = study.plate();
  study.named();
  press.begin({ input: { job: marked(job), plate, mated, benches: study.benches() }, settings });
  const made = machinistTable(plate, job, { unit: speech.unit }, mated);
  if (!made.ok) return made;
  const sections = packetSections(study, made.table, speech, letters, options.full === true);
  const drawn = drawingFor(study, made.table, letters);
  const printing = press.finish(sections.printed, drawn.sheets);
  // A failure is reported below, where it is waited for; not before.
  printing.catch(() => null);
  const html = webPage(markedName(job), sections.whole, letters);
  const pictures = pictureFiles(job, sections.whole, letters);
  const machine: { readonly extension: string; readonly made: MachineMade }[] = [];
  for (const format of machineFormats) {
    const why = withheld(format, notice, options);
    const source = { plate, table: made.table, name: markedName(job), notice, g70G71: options.g70G71 === true };
    machine.push({
      extension: format.extension,
      made: why === null ? await format.make(source) : { ok: false, faults: [why] },
    });
  }
  const others: readonly MadeFile[] = [
    { name: 'packet.html', says: 'the same on one web page, for a phone at the machine', content: html },
    ...pictures,
    ...machine.flatMap(({ extension, made }) =>
      made.ok ? made.files.map((f) => ({ name: `${f.name}.${extension}`, says: f.says, content: f.text })) : [],
    ),
    ...documents(study, made.table),
  ];
  const printed = await printing;
  if (!printed.ok) return printed;
  return {
    ok: true,
    sound: verdict.answer === 'yes',
    verdict,
    files: [...printed.files, ...others],
    verdicts: sections.verdicts,
    warnings: [
      ...printed.warnings,
      ...drawn.warnings,
      ...machine.flatMap(({ made }) => (made.ok ? (made.without ?? []) : made.faults)),
    ],
  };
};
