import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';

/** Readers guess where spaces stand from the gaps between letters: words are compared without any. */
export const bare = (words: string): string => words.replace(/\s+/g, '');

/** A second reader of our files: pages, boxes, text, layers and manners as a general library sees them. */
export const read = async (bytes: Uint8Array) => {
  const doc = await getDocument({ data: bytes.slice(), verbosity: 0, useSystemFonts: false, disableFontFace: true })
    .promise;
  const pages = await Promise.all(
    Array.from({ length: doc.numPages }, async (_, i) => {
      const page = await doc.getPage(i + 1);
      const words = await page.getTextContent();
      return {
        view: page.view,
        unit: page.userUnit,
        text: bare(words.items.map((item) => ('str' in item ? item.str : '')).join('')),
      };
    }),
  );
  const layers = await doc.getOptionalContentConfig();
  const out = {
    pages,
    labels: await doc.getPageLabels(),
    manners: await doc.getViewerPreferences(),
    metadata: (await doc.getMetadata()).info as Readonly<Record<string, unknown>>,
    outline: await doc.getOutline(),
    layers: Object.values((layers.getGroups() ?? {}) as Record<string, { readonly name: string }>).map((g) => g.name),
    shown: Object.keys((layers.getGroups() ?? {}) as object).map((id) =>
      layers.isVisible(layers.getGroup(id) as object),
    ),
    pageOf: async (dest: unknown) =>
      (await doc.getPageIndex((dest as readonly [object])[0] as Parameters<typeof doc.getPageIndex>[0])) + 1,
  };
  return out;
};
