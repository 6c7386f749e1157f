import type { Block } from '@fayplate/core';
import { type Lettering, type Shape, line, pens, text, visible } from '@fayplate/drawing';
import { unchanged } from '../geometry/affine.js';
import type { Stock } from '../paper/paper.js';
import type { PdfPage } from '../pdf/page.js';
import { fitText } from '../sheet/frame.js';
import { blockPieces, contentsPieces } from './contents.js';
import { type FlowedPage, flow, panelsOf } from './flow.js';
import { picturePiece } from './picture.js';
import { type Piece, piece } from './piece.js';
import { style } from './piece.js';
import { type PacketSection, leadsOn, withPages } from './section.js';
import { headingPiece } from './text.js';

interface PacketWords {
  readonly job: string;
  /** Day of making as words; null: none. */
  readonly date: string | null;
}

interface LaidPacket {
  readonly pages: readonly PdfPage[];
  readonly contents: readonly { readonly title: string; readonly page: number }[];
}

interface Area {
  readonly width: number;
  readonly height: number;
}

const areaOf = (page: { readonly width: number; readonly height: number }): Area => ({
  width: page.width - style.margin.left - style.margin.right,
  height: page.height - style.margin.top - style.margin.bottom,
});

/** A caution is shown once in a packet, where it is first met. */
const onceOnly = (): ((block: Block) => boolean) => {
  const seen = new Set<string>();
  return (block) => {
    if (block.kind !== 'caution') return true;
    if (seen.has(block.text)) return false;
    seen.add(block.text);
    return true;
  };
};

const piecesOf = (section: PacketSection, area: Area, lettering: Lettering, part = 1): readonly Piece[] => {
  const body = section.items.flatMap((item): readonly Piece[] => {
    if (item.kind === 'pages') return [];
    if (item.kind === 'picture')
      return [
        picturePiece(
          item.picture,
          area.width,
          (area.height - 14) * (item.share ?? 1) * part,
          area.height - 14,
          lettering,
        ),
      ];
    return item.report.flatMap((block) => blockPieces(block, area.width, lettering, item.capital));
  });
  return [headingPiece(section.title, 0, area.width, lettering), ...body];
};

const onceIn = (section: PacketSection, fresh: (block: Block) => boolean): PacketSection => ({
  ...section,
  items: section.items.map((item) => (item.kind === 'report' ? { ...item, report: item.report.filter(fresh) } : item)),
});

/** Steps in which pictures shrink. */
const SHRINK = 0.1;

/** The section laid with its pictures as large as they may be without costing it a page. */
const laidBest = (
  section: PacketSection,
  area: Area,
  lettering: Lettering,
  lay: (pieces: readonly Piece[]) => readonly FlowedPage[],
): readonly FlowedPage[] => {
  let best = lay(piecesOf(section, area, lettering));
  const least = section.least ?? 1;
  for (let part = 1 - SHRINK; part > least - 1e-9; part -= SHRINK) {
    const laid = lay(piecesOf(section, area, lettering, part));
    if (laid.length < best.length) best = laid;
  }
  return best;
};

/** The heading of a section and all that it holds, for a sheet of its own. */
export const sectionPieces = (section: PacketSection, area: Area, lettering: Lettering): readonly Piece[] =>
  piecesOf(onceIn(section, onceOnly()), area, lettering);

const footer = (
  page: { readonly width: number },
  words: PacketWords,
  section: string,
  number: string,
  lettering: Lettering,
): readonly Shape[] => {
  const left = style.margin.left;
  const right = page.width - style.margin.right;
  const y = style.margin.bottom - 8;
  const middle = (left + right) / 2;
  const widthOf = (s: string): number => lettering.width(s, style.footer, 'regular');
  const job = fitText(words.job, (right - left) / 3 - 4, style.footer, 'regular', lettering);
  // What stands in the middle may be as wide as the words at either end leave it.
  const room = 2 * (middle - left - Math.max(widthOf(job), widthOf(number)) - 4);
  return [
    line('note', { x: left, y: y + 4.4 }, { x: right, y: y + 4.4 }, { ...pens.hair, grey: 0.4 }),
    text('note', { x: left, y }, job, { capital: style.footer }),
    text('note', { x: middle, y }, fitText(section, room, style.footer, 'regular', lettering), {
      capital: style.footer,
      anchor: 'middle',
    }),
    text('note', { x: right, y }, number, { capital: style.footer, anchor: 'end' }),
  ];
};

/** A sheet of a template with the packet's number in the room that its strip keeps for it. */
const numbered = (sheet: PdfPage, n: number): PdfPage => {
  const words =
    sheet.numberAt === null
      ? []
      : [text('note', sheet.numberAt, `page ${n}`, { capital: style.footer, anchor: 'middle' })];
  return { ...sheet, label: String(n), panels: [...sheet.panels, { place: unchanged, clip: null, shapes: words }] };
};

interface Run {
  readonly section: string;
  readonly flowed: readonly FlowedPage[];
  readonly laid: readonly PdfPage[];
}

const lengthOf = (r: Run): number => r.flowed.length + r.laid.length;

/** Page on which each run starts, from 1. */
const startsOf = (runs: readonly Run[]): readonly number[] =>
  runs.map((_, i) => 1 + runs.slice(0, i).reduce((n, r) => n + lengthOf(r), 0));

/**
 * All sections on pages of one paper: title and contents first with the first section under them, every other section
 * on a new page, sheets at true scale kept on the paper that they were laid for; numbered pages throughout.
 */
export const layPacket = (
  words: PacketWords,
  sections: readonly PacketSection[],
  stock: Stock,
  lettering: Lettering,
): LaidPacket => {
  const page = { width: stock.width, height: stock.height ?? stock.width * Math.SQRT2 };
  const area = areaOf(page);
  const fresh = onceOnly();
  const plain = sections.map((section) => onceIn(section, fresh));
  const laidWith = (
    said: readonly PacketSection[],
  ): { readonly runs: readonly Run[]; readonly starts: readonly number[] } => {
    const front = (numbers: readonly number[]): readonly Piece[] => [
      headingPiece(words.job, 0, area.width, lettering),
      ...(words.date === null
        ? []
        : [piece(style.lead, [text('note', { x: 0, y: -3 }, words.date, { capital: style.text })])]),
      ...contentsPieces(
        sections.map((s, i) => ({ title: s.title, page: numbers[i] ?? 0 })),
        area.width,
        lettering,
      ),
    ];
    const sheetsOf = (section: PacketSection): readonly PdfPage[] =>
      section.items.flatMap((item) => (item.kind === 'pages' ? item.pages : []));
    const opening = (numbers: readonly number[]): readonly Run[] =>
      said.slice(0, 1).map((section) => ({
        section: section.title,
        laid: sheetsOf(section),
        flowed: laidBest(section, area, lettering, ([title, ...body]) =>
          flow(
            [...front(numbers), ...(title === undefined ? [] : [{ ...title, above: 2 * style.lead }]), ...body],
            area.height,
          ),
        ),
      }));
    const others = said.slice(1).map((section): Run => {
      const laid = sheetsOf(section);
      // A section of nothing but sheets needs no page to say so: every sheet says what it is.
      const flowed = laidBest(section, area, lettering, (pieces) =>
        pieces.length <= 1 && laid.length > 0 ? [] : flow(pieces, area.height),
      );
      return { section: section.title, laid, flowed };
    });
    // Laid twice: how much room the contents take does not depend on the numbers in them.
    const starts = startsOf([...opening([]), ...others]);
    const runs = [...opening(starts), ...others];
    return { runs, starts };
  };
  const titles = sections.map((s) => s.title);
  const first = laidWith(plain.map((s) => withPages(s, titles, [])));
  // Once more where words lead to a page, whose number is known only now.
  const { runs, starts } = plain.some((s) => leadsOn(s, titles))
    ? laidWith(plain.map((s) => withPages(s, titles, first.starts)))
    : first;
  const total = runs.reduce((n, r) => n + lengthOf(r), 0);
  const pages: PdfPage[] = [];
  for (const run of runs) {
    for (const flowed of run.flowed) {
      const number = String(pages.length + 1);
      pages.push({
        ...page,
        label: number,
        correction: null,
        numberAt: null,
        panels: [
          ...panelsOf(flowed, { x: style.margin.left, y: page.height - style.margin.top }),
          {
            place: unchanged,
            clip: null,
            shapes: footer(page, words, run.section, `page ${number} of ${total}`, lettering),
          },
        ],
      });
    }
    for (const sheet of run.laid) pages.push(numbered(sheet, pages.length + 1));
  }
  return { pages, contents: sections.map((s, i) => ({ title: visible(s.title), page: (starts[i] ?? 1) - 1 })) };
};
