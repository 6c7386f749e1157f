import type { Report, Speech } from '@fayplate/core';
import { captioned, svg } from '@fayplate/drawing';
import { layoutJson } from '@fayplate/layout';
import { iso6983, machinistTable, stepSolid, tableCsv, tableJson } from '@fayplate/machining';
import { plateJson, stackJson } from '@fayplate/plate';
import { inKeeping, locateJson } from '@fayplate/survey';
import { loadLettering } from '../files/fonts.js';
import { fileNamesOf } from '../files/names.js';
import { readProfile } from '../files/profiles.js';
import { page } from '../html/page.js';
import { rulerSvg } from '../html/ruler.js';
import type { Io } from '../io.js';
import { refuseUnknownHoles } from '../plate-names.js';
import type { Press } from '../press/press.js';
import { type PaperOptions, printSettings } from '../print-settings.js';
import type { Study } from '../study.js';
import { packetSections, printedSection } from './sections.js';

export interface PacketFile {
  readonly name: string;
  readonly says: string;
  readonly content: string | Uint8Array;
}

export type PacketMade =
  | {
      readonly ok: true;
      readonly sound: boolean;
      readonly files: readonly PacketFile[];
      readonly verdicts: Report;
      readonly warnings: readonly string[];
    }
  | { readonly ok: false; readonly faults: readonly string[] };

const json = (job: string, command: string, value: object): string =>
  `${JSON.stringify({ fayplate: 1, job, command, ...value }, null, 2)}\n`;

/** Every file of the packet, made before any is written: a job that cannot be finished leaves nothing behind. */
export const packetFiles = async (
  study: Study,
  speech: Speech,
  io: Io,
  press: Press,
  options: PaperOptions & { readonly printer?: string },
): Promise<PacketMade> => {
  const { job } = study;
  const settings = {
    ...printSettings(job, options, readProfile(io, options.printer ?? job.print?.printer ?? null)),
    speech,
  };
  const letters = await loadLettering();
  const { plate, mated } = study.plate();
  refuseUnknownHoles(job, plate);
  press.begin({ input: { job, plate, mated, benches: study.benches() }, settings });
  const made = machinistTable(plate, job, { unit: speech.unit }, mated);
  if (!made.ok) return made;
  const sections = packetSections(study, made.table, speech, letters);
  const printing = press.finish(sections.map(printedSection));
  const drawn = sections.flatMap((s) => s.pictures);
  const names = fileNamesOf(drawn.map((p) => p.name));
  const pictures = drawn.map((p, i) => ({
    name: `${names[i] ?? p.name}.svg`,
    says: p.drawing.title,
    content: svg(captioned(p.drawing, letters), letters),
  }));
  const html = page(job.name, [
    ...sections.map((s) => ({
      title: s.title,
      report: s.report,
      pictures: s.pictures.map(({ drawing, whole }) => ({
        caption: drawing.title,
        notes: drawing.notes,
        svg: svg(drawing, letters),
        scaled: drawing.scale !== null,
        true: false,
        whole: whole === true,
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
  const solid = stepSolid(plate, { name: job.name });
  const programs = iso6983(plate, made.table, { name: job.name });
  const stack = study.stack();
  const faces = job.faces.map((f) => study.located(f));
  const others: readonly PacketFile[] = [
    { name: 'packet.html', says: 'the same on one web page, for a phone at the machine', content: html },
    ...pictures,
    { name: 'table.csv', says: 'the machinist’s table for a spreadsheet', content: tableCsv(made.table) },
    ...(programs.ok
      ? programs.programs.map((p) => ({
          name: `side-${p.side.toLowerCase()}.cnc`,
          says: `ISO 6983 program, side ${p.side} up`,
          content: p.text,
        }))
      : []),
    ...(solid.ok ? [{ name: 'plate.step', says: 'ISO 10303-21 solid of the plate', content: solid.text }] : []),
    {
      name: 'locate.json',
      says: 'centres with their covariance',
      content: json(job.name, 'locate', locateJson(faces)),
    },
    {
      name: 'layout.json',
      says: 'layouts with their odds',
      content: json(job.name, 'layout', layoutJson(job.faces.map((f) => study.layout(f)))),
    },
    ...(stack === null
      ? []
      : [{ name: 'stack.json', says: 'the axial chain', content: json(job.name, 'stack', stackJson(stack)) }]),
    { name: 'plate.json', says: 'the plate with every check', content: json(job.name, 'plate', plateJson(plate)) },
    { name: 'table.json', says: 'the machinist’s table', content: json(job.name, 'table', tableJson(made.table)) },
  ];
  const printed = await printing;
  if (!printed.ok) return printed;
  const sound = plate.ok && (stack?.ok ?? true) && faces.every(inKeeping);
  return {
    ok: true,
    sound,
    files: [...printed.files, ...others],
    verdicts: sections[0]?.report.filter((b) => b.kind !== 'paragraph') ?? [],
    warnings: [...printed.warnings, ...(programs.ok ? [] : programs.faults), ...(solid.ok ? [] : solid.faults)],
  };
};
