import type { Layer, Lettering } from '@fayplate/drawing';
import { strToU8, zlibSync } from 'fflate';
import {
  Duplex,
  PDFArray,
  type PDFContext,
  type PDFDict,
  PDFDocument,
  PDFHexString,
  PDFName,
  type PDFRawStream,
  type PDFRef,
  PDFString,
  PrintScaling,
} from 'pdf-lib';
import { type BookFont, advanceOf, glyphBook, glyphProc, toUnicode } from './glyph-book.js';
import { POINTS_PER_MM, type PdfPage, pageOps } from './page.js';

interface PdfJob {
  readonly title: string;
  /** BCP 47. */
  readonly language: string;
  /** Stamped as the day of making, so that the same job gives the same bytes; null: none. */
  readonly date: Date | null;
  readonly pages: readonly PdfPage[];
  /** The reader's table of contents: page is an index into `pages`. */
  readonly contents: readonly { readonly title: string; readonly page: number }[];
}

const LAYERS: readonly (readonly [Layer, string])[] = [
  ['cut', 'Cut'],
  ['mark', 'Mark'],
  ['note', 'Note'],
];

/** Operators are plain ASCII. */
const encode = (text: string): Uint8Array => strToU8(text);

/**
 * A stream compressed (ISO 32000-1, 7.4.4). In JavaScript everywhere, though Node could do it itself three times as
 * fast: another deflate makes other bytes, and the same job must give the same file from the command line and from a
 * page in a browser. Level 4: from 5 on it takes half as long again and saves a hundredth.
 */
const compressed = (context: PDFContext, text: string): PDFRawStream =>
  context.stream(zlibSync(encode(text), { level: 4 }), { Filter: 'FlateDecode' });

const name = PDFName.of;

const fontRef = (doc: PDFDocument, font: BookFont, lettering: Lettering): PDFRef => {
  const { context } = doc;
  const procs = context.obj({});
  const differences = PDFArray.withContext(context);
  differences.push(context.obj(0));
  for (const [code, g] of font.glyphs.entries()) {
    procs.set(
      name(`g${code}`),
      context.register(context.stream(encode(glyphProc(lettering.glyph(g.id, font.weight))))),
    );
    differences.push(name(`g${code}`));
  }
  return context.register(
    context.obj({
      Type: 'Font',
      Subtype: 'Type3',
      FontBBox: [0, 0, 0, 0],
      FontMatrix: [0.001, 0, 0, 0.001, 0, 0],
      CharProcs: procs,
      Encoding: { Type: 'Encoding', Differences: differences },
      FirstChar: 0,
      LastChar: font.glyphs.length - 1,
      Widths: advanceOf(lettering, font).slice(),
      Resources: {},
      ToUnicode: context.register(compressed(context, toUnicode(font))),
    }),
  );
};

/** Optional content groups for the three layers, all shown and all printed (ISO 32000-1, 8.11). */
const layerRefs = (doc: PDFDocument): ReadonlyMap<Layer, PDFRef> => {
  const { context, catalog } = doc;
  const refs = new Map(
    LAYERS.map(
      ([layer, title]) => [layer, context.register(context.obj({ Type: 'OCG', Name: PDFString.of(title) }))] as const,
    ),
  );
  const all = [...refs.values()];
  catalog.set(
    name('OCProperties'),
    context.obj({ OCGs: all, D: { Name: PDFString.of('All'), BaseState: 'ON', ON: all, Order: all } }),
  );
  return refs;
};

const addLabels = (doc: PDFDocument, pages: readonly PdfPage[]): void => {
  const nums = PDFArray.withContext(doc.context);
  for (const [i, page] of pages.entries()) {
    nums.push(doc.context.obj(i));
    nums.push(doc.context.obj({ P: PDFHexString.fromText(page.label) }));
  }
  doc.catalog.set(name('PageLabels'), doc.context.obj({ Nums: nums }));
};

const addContents = (doc: PDFDocument, contents: PdfJob['contents']): void => {
  if (contents.length === 0) return;
  const { context } = doc;
  const root = context.obj({ Type: 'Outlines', Count: contents.length });
  const rootRef = context.register(root);
  const items = contents.map(({ title, page }) => {
    const item = context.obj({ Parent: rootRef });
    item.set(name('Title'), PDFHexString.fromText(title));
    item.set(name('Dest'), context.obj([doc.getPage(page).ref, name('Fit')]));
    return { item, ref: context.register(item) };
  });
  for (const [i, { item }] of items.entries()) {
    const link = (key: string, other: { readonly ref: PDFRef } | undefined, to: PDFDict): void => {
      if (other !== undefined) to.set(name(key), other.ref);
    };
    if (i > 0) link('Prev', items[i - 1], item);
    link('Next', items[i + 1], item);
  }
  const [first] = items;
  const last = items.at(-1);
  if (first !== undefined) root.set(name('First'), first.ref);
  if (last !== undefined) root.set(name('Last'), last.ref);
  doc.catalog.set(name('Outlines'), rootRef);
  doc.catalog.set(name('PageMode'), name('UseOutlines'));
};

const addManners = (doc: PDFDocument): void => {
  const manners = doc.catalog.getOrCreateViewerPreferences();
  manners.setPrintScaling(PrintScaling.None);
  manners.setPickTrayByPDFSize(true);
  manners.setDuplex(Duplex.Simplex);
  manners.setDisplayDocTitle(true);
};

/**
 * Writes pages as a PDF (ISO 32000-1). The viewer is asked not to scale, to take the tray by page size and to print
 * one side; lines to cut, marks and notes are layers. The same job gives the same bytes.
 */
export const writePdf = async (job: PdfJob, lettering: Lettering): Promise<Uint8Array> => {
  const doc = await PDFDocument.create({ updateMetadata: false });
  doc.setTitle(job.title);
  doc.setLanguage(job.language);
  doc.setProducer('Fayplate');
  doc.setCreator('Fayplate');
  if (job.date !== null) {
    doc.setCreationDate(job.date);
    doc.setModificationDate(job.date);
  }
  const book = glyphBook();
  const layers = layerRefs(doc);
  const fonts = doc.context.obj({});
  const properties = doc.context.obj({});
  for (const [layer, ref] of layers) properties.set(name(layer), ref);
  const resources = doc.context.register(doc.context.obj({ Font: fonts, Properties: properties }));
  const contents = job.pages.map((page) => {
    const { node } = doc.addPage([page.width * POINTS_PER_MM, page.height * POINTS_PER_MM]);
    node.set(name('Resources'), resources);
    return { node, stream: compressed(doc.context, pageOps(page, lettering, book)) };
  });
  for (const font of book.fonts()) fonts.set(name(font.name), fontRef(doc, font, lettering));
  for (const { node, stream } of contents) node.set(name('Contents'), doc.context.register(stream));
  addLabels(doc, job.pages);
  addContents(doc, job.contents);
  addManners(doc);
  // Without object streams the producer stands in the file as plain text: a tool can tell whose file it is.
  return doc.save({ useObjectStreams: false });
};
