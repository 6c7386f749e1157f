import { visible } from '@fayplate/drawing';
import { layPacket } from './packet/packet.js';
import type { PacketSection } from './packet/section.js';
import { stockOf } from './paper/paper.js';
import { writePdf } from './pdf/write.js';
import { missingWords, recording } from './options.js';
import type { NotPrinted, PrintOptions } from './types.js';

/** What a packet is printed with. */
export interface PacketOptions extends Pick<PrintOptions, 'paper' | 'date' | 'lettering'> {
  readonly job: string;
}

/** The packet as PDF bytes. */
export interface PrintedPacket {
  readonly ok: true;
  readonly bytes: Uint8Array;
  readonly pages: number;
  /** Where each section starts, pages counted from 1. */
  readonly contents: readonly { readonly title: string; readonly page: number }[];
  readonly warnings: readonly string[];
}

/** Least page on which the packet's tables can be read, mm. */
const LEAST_WIDTH = 140;

/** The packet as one PDF with numbered pages and an outline; roll and single fall back to A4, for it is to be read. */
export const packetPdf = async (
  sections: readonly PacketSection[],
  options: PacketOptions,
): Promise<PrintedPacket | NotPrinted> => {
  const asked = stockOf(options.paper);
  const stock = asked === null || asked.height === null || asked.width < LEAST_WIDTH ? stockOf('A4') : asked;
  if (stock === null) return { ok: false, faults: ['no paper is known to lay the packet on'] };
  if (sections.length === 0)
    return { ok: false, faults: ['there is nothing to put into the packet yet: solve the job first'] };
  const { lettering, missing } = recording(options.lettering);
  const date = options.date === null ? null : options.date.toISOString().slice(0, 10);
  const laid = layPacket({ job: options.job, date }, sections, stock, lettering);
  const bytes = await writePdf(
    { title: visible(options.job), language: 'en-GB', date: options.date, ...laid },
    lettering,
  );
  return {
    ok: true,
    bytes,
    pages: laid.pages.length,
    contents: laid.contents.map((c) => ({ ...c, page: c.page + 1 })),
    warnings: missingWords(missing),
  };
};
