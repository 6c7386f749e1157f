import { PDFiumLibrary } from '@hyzyla/pdfium';
import { PDFDocument } from 'pdf-lib';

/** A page as darkness: 0 white … 1 black, rows from the top. */
export interface Raster {
  readonly width: number;
  readonly height: number;
  readonly dark: (column: number, row: number) => number;
  /** Pixels per mm, each axis its own. */
  readonly across: number;
  readonly up: number;
  /** Page mm of the raster's lower left corner. */
  readonly left: number;
  readonly bottom: number;
}

const library = PDFiumLibrary.init();
const MM = 25.4 / 72;

/**
 * Renders a page whole. The engine truncates the page to whole points before scaling: so pixels per mm are image size
 * over page size.
 */
export const raster = async (bytes: Uint8Array, index: number, dpi: number): Promise<Raster> => {
  const document = await (await library).loadDocument(bytes);
  const page = document.getPage(index);
  const { originalWidth, originalHeight } = page.getOriginalSize();
  const image = await page.render({ scale: dpi / 72, render: 'bitmap' });
  document.destroy();
  const { data, width, height } = image;
  return {
    width,
    height,
    dark: (column, row) => 1 - (data[4 * (row * width + column)] ?? 255) / 255,
    across: width / (originalWidth * MM),
    up: height / (originalHeight * MM),
    left: 0,
    bottom: 0,
  };
};

/** Renders a square of a page about a place (page mm), some 40 mm wide and whole points in size, at 1200 dpi. */
export const crop = async (
  bytes: Uint8Array,
  index: number,
  at: readonly [number, number],
  dpi = 1200,
): Promise<Raster> => {
  const points = 112;
  const left = Math.round(at[0] / MM - points / 2);
  const bottom = Math.round(at[1] / MM - points / 2);
  const source = await PDFDocument.load(bytes, { updateMetadata: false });
  const page = source.getPage(index);
  page.setMediaBox(left, bottom, points, points);
  page.setCropBox(left, bottom, points, points);
  const only = await PDFDocument.create();
  const [copy] = await only.copyPages(source, [index]);
  if (copy === undefined) throw new Error('no such page');
  only.addPage(copy);
  const image = await raster(await only.save(), 0, dpi);
  return { ...image, left: left * MM, bottom: bottom * MM };
};
