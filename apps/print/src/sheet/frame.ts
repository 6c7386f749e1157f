import type { Box } from '@fayplate/core';

/** Where things stand on one sheet, page mm: rulers along the left and the bottom, the title strip under them, the window for the drawing. */
export interface Frame {
  readonly page: { readonly width: number; readonly height: number };
  readonly margin: number;
  readonly window: Box;
  readonly strip: Box;
}

export const RULER_BAND = 12;
export const STRIP = 11;

/** Least window that is of use, mm: one hole with its lettering. */
export const LEAST_WINDOW = 40;

export const frameOf = (page: { readonly width: number; readonly height: number }, margin: number): Frame => ({
  page,
  margin,
  window: {
    left: margin + RULER_BAND,
    bottom: margin + STRIP + RULER_BAND,
    right: page.width - margin,
    top: page.height - margin,
  },
  strip: { left: margin, bottom: margin, right: page.width - margin, top: margin + STRIP },
});

/** Page that a window of this size needs: the other way round, for rolls and sheets made to measure. */
export const pageFor = (
  window: { readonly width: number; readonly height: number },
  margin: number,
): { readonly width: number; readonly height: number } => ({
  width: window.width + 2 * margin + RULER_BAND,
  height: window.height + 2 * margin + RULER_BAND + STRIP,
});

export const widthOf = (b: Box): number => b.right - b.left;
export const heightOf = (b: Box): number => b.top - b.bottom;
