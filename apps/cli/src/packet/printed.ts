import type { Speech } from '@fayplate/core';
import type { Lettering } from '@fayplate/drawing';
import { printTemplates } from '@fayplate/print';
import { readProfile } from '../files/profiles.js';
import type { Io } from '../io.js';
import { type PaperOptions, printSettings } from '../print-settings.js';
import type { Study } from '../study.js';
import type { PacketFile } from './files.js';
import type { Section } from './sections.js';

export type PrintedFiles =
  | { readonly ok: true; readonly files: readonly PacketFile[]; readonly warnings: readonly string[] }
  | { readonly ok: false; readonly faults: readonly string[] };

/** The PDF files of the packet: the packet itself, and the templates by themselves for printing at true scale. */
export const printedFiles = async (
  study: Study,
  _sections: readonly Section[],
  speech: Speech,
  lettering: Lettering,
  io: Io,
  options: PaperOptions & { readonly printer?: string },
): Promise<PrintedFiles> => {
  const { job } = study;
  const { plate } = study.plate();
  const settings = printSettings(job, options, readProfile(io, options.printer ?? job.print?.printer ?? null));
  const drill = await printTemplates({ job, plate }, { ...settings, what: 'drill', speech, lettering, file: 'drill.pdf' });
  if (!drill.ok) return drill;
  return { ok: true, files: [{ name: 'drill.pdf', says: 'drilling template at true scale', content: drill.bytes }], warnings: drill.warnings };
};
