import type { Speech } from '@fayplate/core';
import type { Lettering } from '@fayplate/drawing';
import { type PacketItem, type PacketSection, packetPdf, printTemplates } from '@fayplate/print';
import { readProfile } from '../files/profiles.js';
import type { Io } from '../io.js';
import { type PaperOptions, printSettings } from '../print-settings.js';
import type { Study } from '../study.js';
import type { PacketFile } from './files.js';
import type { Section } from './sections.js';

export type PrintedFiles =
  | { readonly ok: true; readonly files: readonly PacketFile[]; readonly warnings: readonly string[] }
  | { readonly ok: false; readonly faults: readonly string[] };

const says = { drill: 'drilling template', gasket: 'gaskets' } as const;

const sectionOf = (s: Section): PacketSection => ({
  title: s.title,
  items: [{ kind: 'report', report: s.report }, ...s.pictures.map(({ drawing }): PacketItem => ({ kind: 'picture', picture: drawing, share: 0.5 }))],
});

/** The PDF files of the packet: the packet with the templates bound in, and each template by itself for printing at true scale. */
export const printedFiles = async (
  study: Study,
  sections: readonly Section[],
  speech: Speech,
  lettering: Lettering,
  io: Io,
  options: PaperOptions & { readonly printer?: string },
): Promise<PrintedFiles> => {
  const { job } = study;
  const { plate, mated } = study.plate();
  const input = { job, plate, mated, benches: study.benches() };
  const settings = { ...printSettings(job, options, readProfile(io, options.printer ?? job.print?.printer ?? null)), speech, lettering };
  const whats = job.gaskets.length === 0 ? (['drill'] as const) : (['drill', 'gasket'] as const);
  const files: PacketFile[] = [];
  const bound: PacketSection[] = [];
  const warnings: string[] = [];
  for (const what of whats) {
    const printed = await printTemplates(input, { ...settings, file: `${what}.pdf`, what });
    if (!printed.ok) return printed;
    bound.push({ title: printed.title, items: [{ kind: 'pages', pages: printed.pages }] });
    files.push({ name: `${what}.pdf`, says: `${says[what]} at true scale`, content: printed.bytes });
    warnings.push(...printed.warnings.map((w) => `${what}.pdf: ${w}`));
  }
  const packet = await packetPdf([...sections.map(sectionOf), ...bound], { ...settings, job: job.name });
  if (!packet.ok) return packet;
  return { ok: true, files: [{ name: 'packet.pdf', says: `everything on paper, ${packet.pages} pages`, content: packet.bytes }, ...files], warnings: [...warnings, ...packet.warnings] };
};
