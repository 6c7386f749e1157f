import type { Block, Report } from '@fayplate/core';
import type { Picture } from '@fayplate/drawing';
import type { PdfPage } from '../pdf/page.js';

/** What a section of the packet holds, in its order: words, pictures, or sheets already laid at true scale. */
export type PacketItem =
  | {
      readonly kind: 'report';
      readonly report: Report;
      /** Capitals of its words and tables, mm; the usual ones unless told. */ readonly capital?: number;
    }
  | {
      readonly kind: 'picture';
      readonly picture: Picture;
      /** Of the page's height that it may take; 1 unless told. */ readonly share?: number;
    }
  | { readonly kind: 'pages'; readonly pages: readonly PdfPage[] };

/** A part of the packet under one title. */
export interface PacketSection {
  readonly title: string;
  readonly items: readonly PacketItem[];
  /** Stands behind the templates: what the work itself does not need. */
  readonly behind?: boolean;
  /** Its pictures may shrink to this part of their share where that saves a page; 1 unless told. */
  readonly least?: number;
}

/** `see Proof` with its page: `see Proof, page 8`; before the pages are known as wide as it will be. */
const withPage = (text: string, titles: readonly string[], starts: readonly number[]): string =>
  titles.reduce((said, title, i) => said.replaceAll(`see ${title}`, `see ${title}, page ${starts[i] ?? '00'}`), text);

const textsOf = (block: Block): readonly string[] =>
  block.kind === 'list' ? block.items : block.kind === 'table' ? [] : [block.text];

/** Whether words of the section lead to another. */
export const leadsOn = (section: PacketSection, titles: readonly string[]): boolean =>
  section.items.some(
    (item) =>
      item.kind === 'report' &&
      item.report.some((b) => textsOf(b).some((t) => titles.some((title) => t.includes(`see ${title}`)))),
  );

/**
 * Its words with the page of every section that they lead to. `starts`: the first page of each; empty until they are
 * known.
 */
export const withPages = (
  section: PacketSection,
  titles: readonly string[],
  starts: readonly number[],
): PacketSection => {
  const put = (text: string): string => withPage(text, titles, starts);
  const block = (b: Block): Block =>
    b.kind === 'list' ? { ...b, items: b.items.map(put) } : b.kind === 'table' ? b : { ...b, text: put(b.text) };
  return {
    ...section,
    items: section.items.map((item) => (item.kind === 'report' ? { ...item, report: item.report.map(block) } : item)),
  };
};
