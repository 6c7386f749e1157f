import type { Box } from '@fayplate/core';
import type { Lettering } from '@fayplate/drawing';

/**
 * Where things stand on one sheet, page mm: rulers along the left and the bottom, the title strip under them, the
 * window for the drawing.
 */
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

type Weight = 'regular' | 'bold';

/** The text, or as much of its start as fits the width with an ellipsis. */
export const fitText = (
  words: string,
  width: number,
  capital: number,
  weight: Weight,
  lettering: Lettering,
): string => {
  if (lettering.width(words, capital, weight) <= width) return words;
  const characters = Array.from(words);
  let lo = 0;
  let hi = characters.length;
  while (lo < hi) {
    const mid = (lo + hi + 1) >> 1;
    if (lettering.width(`${characters.slice(0, mid).join('')}…`, capital, weight) <= width) lo = mid;
    else hi = mid - 1;
  }
  return `${characters.slice(0, lo).join('').trimEnd()}…`;
};
