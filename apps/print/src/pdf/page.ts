import type { Box, Point } from '@fayplate/core';
import type { Lettering, Shape } from '@fayplate/drawing';
import { type Affine, unchanged } from '../geometry/affine.js';
import type { GlyphBook } from './glyph-book.js';
import { factor, mm } from './path-ops.js';
import { shapeOps } from './shape-ops.js';

/** Shapes laid on a page: `place` carries their mm to page mm (origin lower left), `clip` is in page mm. */
export interface Panel {
  readonly place: Affine;
  readonly clip: Box | null;
  readonly shapes: readonly Shape[];
}

/** A page with all that is drawn on it; mm, y up. */
export interface PdfPage {
  /** mm. */
  readonly width: number;
  readonly height: number;
  /** What a reader shows as the page's number. */
  readonly label: string;
  /** Undoes what the printer does to lengths; page mm → page mm. */
  readonly correction: Affine | null;
  /**
   * Where a packet that binds this page may write its number, page mm: bare paper, middle of the baseline; null: it has
   * its own.
   */
  readonly numberAt: Point | null;
  readonly panels: readonly Panel[];
}

export const POINTS_PER_MM = 72 / 25.4;

const matrix = (m: Affine): string => `${m.map(factor).join(' ')} cm`;

const panelOps = ({ clip, place, shapes }: Panel, lettering: Lettering, book: GlyphBook): readonly string[] => [
  'q',
  ...(clip === null
    ? []
    : [`${mm(clip.left)} ${mm(clip.bottom)} ${mm(clip.right - clip.left)} ${mm(clip.top - clip.bottom)} re W n`]),
  ...(place === unchanged ? [] : [matrix(place)]),
  shapeOps(shapes, lettering, book),
  'Q',
];

/** A page as operators, one to a line. Millimetres become points here, once, by the first matrix. */
export const pageOps = (page: PdfPage, lettering: Lettering, book: GlyphBook): string =>
  [
    'q',
    matrix([POINTS_PER_MM, 0, 0, POINTS_PER_MM, 0, 0]),
    ...(page.correction === null ? [] : [matrix(page.correction)]),
    '1 j',
    ...page.panels.flatMap((p) => panelOps(p, lettering, book)),
    'Q',
  ].join('\n');
