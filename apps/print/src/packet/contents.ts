import type { Block } from '@fayplate/core';
import { type Lettering, line, pens, text } from '@fayplate/drawing';
import { fitText } from '../sheet/frame.js';
import { type Piece, piece } from './piece.js';
import { style } from './piece.js';
import { tablePieces } from './table.js';
import { cautionPiece, headingPiece, listPieces, paragraphPieces, verdictPiece } from './text.js';

/**
 * One block of a report as pieces of a page; `capital`: of its words and tables, mm, where they are not the usual ones.
 */
export const blockPieces = (block: Block, width: number, lettering: Lettering, capital?: number): readonly Piece[] => {
  switch (block.kind) {
    case 'heading':
      return [headingPiece(block.text, block.level, width, lettering)];
    case 'verdict':
      return [verdictPiece(block, block.text, width, lettering)];
    case 'paragraph':
      return paragraphPieces(block.text, width, lettering, capital);
    case 'list':
      return listPieces(block.items, width, lettering, capital);
    case 'caution':
      return [cautionPiece(block.text, width, lettering)];
    case 'table':
      return tablePieces(block, width, lettering, capital);
    default:
      return block satisfies never;
  }
};

/** One line for each section: its title, dots, its page. */
export const contentsPieces = (
  entries: readonly { readonly title: string; readonly page: number }[],
  width: number,
  lettering: Lettering,
): readonly Piece[] =>
  entries.map(({ title, page }, i) => {
    const number = String(page);
    const y = -(style.lead + style.text) / 2;
    const words = fitText(title, width - 16, style.text, 'regular', lettering);
    const from = lettering.width(words, style.text, 'regular') + 2;
    const to = width - 8;
    const dots = { ...pens.hair, width: 0.3, dash: [0.3, 1.7], grey: 0.4 };
    return piece(
      style.lead,
      [
        text('note', { x: 0, y }, words, { capital: style.text }),
        ...(from < to ? [line('note', { x: from, y: y + 0.2 }, { x: to, y: y + 0.2 }, dots)] : []),
        text('note', { x: width, y }, number, { capital: style.text, anchor: 'end' }),
      ],
      { above: i === 0 ? style.lead : 0 },
    );
  });
