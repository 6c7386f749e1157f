import type { Drawing, Lettering } from '@fayplate/drawing';
import type { PacketSection } from './packet/section.js';
import { sheetPdf } from './print-page.js';
import { packetPdf } from './print-packet.js';
import { type PrintInput, type TemplateWish, printTemplates } from './print-templates.js';
import type { NotPrinted, PrintOptions } from './types.js';

/** What the templates are printed from, and how; plain values, so that it can be sent to another thread. */
export interface PrintOrder {
  readonly input: PrintInput;
  readonly settings: Omit<PrintOptions & TemplateWish, 'lettering' | 'file' | 'what'>;
}

/** One file of a packet as bytes. */
export interface PrintedFile {
  readonly name: string;
  /** What it is, in a few words. */
  readonly says: string;
  readonly content: Uint8Array;
}

/** A drawing that is a whole sheet of its own paper, and a file of its own beside the packet. */
export interface LoneSheet {
  readonly name: string;
  /** What it is, in a few words. */
  readonly says: string;
  readonly drawing: Drawing;
  readonly paper: string;
}

/** Each template by itself, for printing at true scale, and the same sheets for the packet to bind. */
interface PrintedTemplates {
  readonly ok: true;
  readonly files: readonly PrintedFile[];
  readonly bound: readonly PacketSection[];
  readonly warnings: readonly string[];
}

/** The PDF files of a packet, or why one cannot be printed. */
export type PrintedFiles =
  | { readonly ok: true; readonly files: readonly PrintedFile[]; readonly warnings: readonly string[] }
  | NotPrinted;

const says = { drill: 'drilling template', gasket: 'gaskets' } as const;

const templatesOf = async (
  { input, settings }: PrintOrder,
  lettering: Lettering,
): Promise<PrintedTemplates | NotPrinted> => {
  const whats = input.job.gaskets.length === 0 ? (['drill'] as const) : (['drill', 'gasket'] as const);
  const files: PrintedFile[] = [];
  const bound: PacketSection[] = [];
  const warnings: string[] = [];
  for (const what of whats) {
    const printed = await printTemplates(input, { ...settings, lettering, file: `${what}.pdf`, what });
    if (!printed.ok) return printed;
    bound.push({ title: printed.title, items: [{ kind: 'pages', pages: printed.pages }] });
    files.push({ name: `${what}.pdf`, says: `${says[what]} at true scale`, content: printed.bytes });
    warnings.push(...printed.warnings.map((w) => `${what}.pdf: ${w}`));
  }
  return { ok: true, files, bound, warnings };
};

/**
 * All PDF files of the packet: the packet with the templates bound in, then each template, then each drawing that
 * stands alone.
 */
const packetOf = async (
  templates: PrintedTemplates,
  sections: readonly PacketSection[],
  alone: readonly LoneSheet[],
  { input, settings }: PrintOrder,
  lettering: Lettering,
): Promise<PrintedFiles> => {
  const before = sections.filter((s) => s.behind !== true);
  const behind = sections.filter((s) => s.behind === true);
  const packet = await packetPdf([...before, ...templates.bound, ...behind], {
    ...settings,
    lettering,
    job: input.job.name,
  });
  if (!packet.ok) return packet;
  const drawings = await Promise.all(
    alone.map(async ({ name, says: what, drawing, paper }) => {
      const { bytes, warnings } = await sheetPdf(drawing, { paper, date: settings.date, lettering });
      return { file: { name, says: what, content: bytes }, warnings: warnings.map((w) => `${name}: ${w}`) };
    }),
  );
  return {
    ok: true,
    files: [
      { name: 'packet.pdf', says: `everything on paper, ${packet.pages} pages`, content: packet.bytes },
      ...templates.files,
      ...drawings.map((d) => d.file),
    ],
    warnings: [...templates.warnings, ...packet.warnings, ...drawings.flatMap((d) => d.warnings)],
  };
};

/** Prints a packet's PDF files in the order in which there is something to print. */
export interface Press {
  /** The templates need the plate alone: they are begun as soon as there is one. */
  readonly begin: (order: PrintOrder) => void;
  /** The packet, once all is said that goes into it; faults in words. */
  readonly finish: (sections: readonly PacketSection[], alone?: readonly LoneSheet[]) => Promise<PrintedFiles>;
  readonly stop: () => void;
}

/** The press on this thread, in these letters. */
export const press = (letters: () => Promise<Lettering>): Press => {
  let begun: { readonly order: PrintOrder; readonly templates: Promise<PrintedTemplates | NotPrinted> } | null = null;
  return {
    begin: (order) => {
      begun = { order, templates: letters().then((lettering) => templatesOf(order, lettering)) };
      // A fault is reported to whoever waits for the packet; not before.
      begun.templates.catch(() => null);
    },
    finish: async (sections, alone = []) => {
      if (begun === null) throw new Error('the press was given nothing to print');
      const templates = await begun.templates;
      return templates.ok ? packetOf(templates, sections, alone, begun.order, await letters()) : templates;
    },
    stop: () => undefined,
  };
};
