import type { Shape } from '@fayplate/drawing';

/** Sizes of the packet's pages, mm: one grid of lines, one face in two weights, capitals by rank. */
export const style = {
  margin: { left: 20, right: 16, top: 18, bottom: 20 },
  /** Baseline to baseline of plain text; every height is a multiple of half of it. */
  lead: 4.4,
  text: 2.2,
  /** Section, then the headings of a report by level. */
  headings: [4.4, 3.1, 2.6, 2.2],
  table: 2,
  /** A table too wide for the page is set smaller, but never below this. */
  smallest: 1.5,
  columnGap: 3.6,
  footer: 1.9,
} as const;

/** A strip of a page that is never broken: lines of text, a row, a picture. */
export interface Piece {
  /** mm, room above included; that room is dropped at the head of a page. */
  readonly height: number;
  readonly above: number;
  /** Shapes with their top at y = 0, hanging down, x from 0 at the left margin. */
  readonly shapes: readonly Shape[];
  /** Must stand on the same page as the piece after it. */
  readonly withNext: boolean;
  /** What follows stands close under it. */
  readonly heading: boolean;
  /** Drawn again where the table goes on over a page; its own first piece carries none. */
  readonly head: Piece | null;
  /** Drawn in its place under such a head, where it says again what the row above would have said; null: itself. */
  readonly first: Piece | null;
}

export const piece = (height: number, shapes: readonly Shape[], more: Partial<Piece> = {}): Piece => ({
  height,
  shapes,
  above: 0,
  withNext: false,
  heading: false,
  head: null,
  first: null,
  ...more,
});
