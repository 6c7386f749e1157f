import type { Block } from '@fayplate/core';
import type { Lettering } from '@fayplate/drawing';
import type { Piece } from './piece.js';
import { tablePieces } from './table.js';
import { cautionPiece, headingPiece, listPieces, paragraphPieces, verdictPiece } from './text.js';

/** One block of a report as pieces of a page. */
export const blockPieces = (block: Block, width: number, lettering: Lettering): readonly Piece[] => {
  switch (block.kind) {
    case 'heading':
      return [headingPiece(block.text, block.level, width, lettering)];
    case 'verdict':
      return [verdictPiece(block, block.text, width, lettering)];
    case 'paragraph':
      return paragraphPieces(block.text, width, lettering);
    case 'list':
      return listPieces(block.items, width, lettering);
    case 'caution':
      return [cautionPiece(block.text, width, lettering)];
    case 'table':
      return tablePieces(block, width, lettering);
    default:
      return block satisfies never;
  }
};
