import { type Drawing, line, pens, text, visible } from '@fayplate/drawing';
import { shifted, unchanged } from './geometry/affine.js';
import { flow, panelsOf } from './packet/flow.js';
import { style } from './packet/piece.js';
import { sectionPieces } from './packet/packet.js';
import type { PacketSection } from './packet/section.js';
import { picturePiece } from './packet/picture.js';
import { stockOf } from './paper/paper.js';
import type { PdfPage } from './pdf/page.js';
import { writePdf } from './pdf/write.js';
import { missingWords, recording } from './options.js';
import { fitText } from './sheet/frame.js';
import type { NotPrinted, PrintOptions } from './types.js';

/** A sheet to read at the bench, in print: how many pages it took. */
export interface PrintedPage {
  readonly ok: true;
  readonly bytes: Uint8Array;
  readonly pages: number;
  readonly paper: { readonly name: string };
  readonly warnings: readonly string[];
}

/** How such a sheet is printed; `foot` stands at the foot of each page. */
type PageOptions = Pick<PrintOptions, 'paper' | 'date' | 'lettering'> & {
  readonly job: string;
  readonly foot: string;
};

/** Least height of a picture under the words, mm; with less left it goes on a page of its own. */
const LEAST_PICTURE = 34;

/** Least page on which words can be read, mm. */
const LEAST_WIDTH = 140;

/** One section of words and pictures by itself, on as few pages as it takes; roll and single fall back to A4. */
export const pagePdf = async (section: PacketSection, options: PageOptions): Promise<PrintedPage | NotPrinted> => {
  const asked = stockOf(options.paper);
  const stock = asked === null || asked.height === null || asked.width < LEAST_WIDTH ? stockOf('A4') : asked;
  if (stock === null || stock.height === null) return { ok: false, faults: ['no paper is known to lay the sheet on'] };
  const page = { width: stock.width, height: stock.height };
  const { lettering, missing } = recording(options.lettering);
  const [left, right] = [style.margin.left, page.width - style.margin.right];
  const area = { width: right - left, height: page.height - style.margin.top - style.margin.bottom };
  const words = sectionPieces(
    { ...section, items: section.items.filter((i) => i.kind !== 'picture') },
    area,
    lettering,
  );
  const pictures = section.items.flatMap((i) => (i.kind === 'picture' ? [i.picture] : []));
  const spare = area.height - (flow(words, area.height).at(-1)?.used ?? 0) - 2 * style.lead;
  const room = spare < LEAST_PICTURE ? area.height / 2 : spare / pictures.length;
  const drawn = pictures.map((p) => picturePiece(p, area.width, room, room, lettering));
  const flowed = flow([...words, ...drawn], area.height);
  const y = style.margin.bottom - 8;
  const foot = fitText(
    visible(`${options.job} · ${options.foot}`),
    area.width - 30,
    style.footer,
    'regular',
    lettering,
  );
  const pages = flowed.map((laid, i): PdfPage => ({
    ...page,
    label: String(i + 1),
    correction: null,
    numberAt: null,
    panels: [
      ...panelsOf(laid, { x: left, y: page.height - style.margin.top }),
      {
        place: unchanged,
        clip: null,
        shapes: [
          line('note', { x: left, y: y + 4.4 }, { x: right, y: y + 4.4 }, { ...pens.hair, grey: 0.4 }),
          text('note', { x: left, y }, foot, { capital: style.footer }),
          text('note', { x: right, y }, `page ${i + 1} of ${flowed.length}`, { capital: style.footer, anchor: 'end' }),
        ],
      },
    ],
  }));
  const contents = [{ title: visible(section.title), page: 0 }];
  const title = visible(`${options.job}: ${section.title}`);
  const bytes = await writePdf({ title, language: 'en-GB', date: options.date, pages, contents }, lettering);
  return { ok: true, bytes, pages: pages.length, paper: { name: stock.name }, warnings: missingWords(missing) };
};

/** A drawing that is a whole sheet already: its box is the paper, mm. */
export const sheetPdf = async (
  drawing: Drawing,
  options: Pick<PrintOptions, 'date' | 'lettering'> & { readonly paper: string },
): Promise<PrintedPage> => {
  const { lettering, missing } = recording(options.lettering);
  const { left, bottom, right, top } = drawing.box;
  const page: PdfPage = {
    width: right - left,
    height: top - bottom,
    label: '1',
    correction: null,
    numberAt: null,
    panels: [{ place: shifted(-left, -bottom), clip: null, shapes: drawing.shapes }],
  };
  const title = visible(drawing.title);
  const bytes = await writePdf(
    { title, language: 'en-GB', date: options.date, pages: [page], contents: [{ title, page: 0 }] },
    lettering,
  );
  return { ok: true, bytes, pages: 1, paper: { name: options.paper }, warnings: missingWords(missing) };
};
