import type { Block } from '@fayplate/core';
import type { Lettering } from '@fayplate/drawing';
import type { Piece } from './piece.js';
import { tablePieces } from './table.js';
import { cautionPiece, headingPiece, listPieces, paragraphPieces, verdictPiece } from './text.js';

/** One block of a report as pieces of a page; `capital`: of its words and tables, mm, where they are not the usual ones. */
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
