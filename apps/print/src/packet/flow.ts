import type { Point } from '@fayplate/core';
import { shifted } from '../geometry/affine.js';
import type { Panel } from '../pdf/page.js';
import { type Piece, style } from './piece.js';

/** Under a heading, mm. */
const CLOSE = style.lead / 4;

/** Pieces laid down one page, each with how far its top lies under the top of the text, mm. */
export interface FlowedPage {
  readonly laid: readonly { readonly piece: Piece; readonly down: number }[];
  /** How far down it is filled, mm. */
  readonly used: number;
}

/** The pieces as panels, their text with its top left corner at `corner`, page mm. */
export const panelsOf = (page: FlowedPage, corner: Point): readonly Panel[] =>
  page.laid.map(({ piece, down }) => ({ place: shifted(corner.x, corner.y - down), clip: null, shapes: piece.shapes }));

/** Height of a piece with all that must follow it on the same page. */
const chainHeight = (pieces: readonly Piece[], from: number): number => {
  let sum = 0;
  for (let i = from; i < pieces.length; i++) {
    const p = pieces[i];
    if (p === undefined) break;
    sum += p.height + (i === from ? 0 : p.above);
    if (!p.withNext) break;
  }
  return sum;
};

/**
 * Pieces over as many pages as they need, each `height` mm, the first already filled to `start`. A piece moves on with
 * those that must follow it; a table's head is drawn again on every page that the table goes on to.
 */
export const flow = (pieces: readonly Piece[], height: number, start = 0): readonly FlowedPage[] => {
  const pages: { laid: FlowedPage['laid'][number][]; used: number }[] = [{ laid: [], used: start }];
  let page = pages[0] ?? { laid: [], used: start };
  const turn = (): void => {
    page = { laid: [], used: 0 };
    pages.push(page);
  };
  let before: Piece | null = null;
  const roomAbove = (p: Piece): number => {
    if (page.used === 0) return 0;
    return before?.heading === true && !p.heading ? Math.min(p.above, CLOSE) : p.above;
  };
  const put = (p: Piece): void => {
    const above = roomAbove(p);
    before = p;
    page.laid.push({ piece: p, down: page.used + above });
    page.used += above + p.height;
  };
  for (const [i, p] of pieces.entries()) {
    const above = roomAbove(p);
    const chain = chainHeight(pieces, i);
    const needs = chain + (p.head?.height ?? 0) <= height ? chain : p.height;
    const over = page.used > 0 && page.used + above + needs > height + 1e-6;
    if (over) turn();
    if (over && p.head !== null) put(p.head);
    put(over ? (p.first ?? p) : p);
  }
  return pages;
};
