import type { Shape } from '@fayplate/drawing';

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
