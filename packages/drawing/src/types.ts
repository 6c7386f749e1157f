import type { Path, Point } from '@fayplate/core';

/** What a shape is for: cut through, mark on the work, read only; hidden construction is 'note' too. */
export type Layer = 'cut' | 'mark' | 'note';

/** A style of our own, in true mm: readable in black and white, so tone is never the only sign. */
export interface Stroke {
  readonly width: number;
  /** On and off lengths, mm; empty: solid. */
  readonly dash: readonly number[];
  /** 0 black … 1 white. */
  readonly grey: number;
}

/** The two weights that the sheets use. */
export type Weight = 'regular' | 'bold';

/** A line or an area, mm, y up. */
export interface PathShape {
  readonly kind: 'path';
  readonly layer: Layer;
  readonly path: Path;
  readonly stroke: Stroke | null;
  /** 0 black … 1 white; null: not filled. */
  readonly fill: number | null;
}

/** A line of text, set at its baseline, mm. */
export interface TextShape {
  readonly kind: 'text';
  readonly layer: Layer;
  /** Where the anchor of the baseline lies. */
  readonly at: Point;
  readonly text: string;
  /** Height of a capital, mm. */
  readonly capital: number;
  readonly weight: Weight;
  readonly anchor: 'start' | 'middle' | 'end';
  /** Radians counter-clockwise. */
  readonly turn: number;
  readonly grey: number;
}

/** Shapes that belong together; the layer, where it is given, is that of every shape within. */
export interface GroupShape {
  readonly kind: 'group';
  readonly layer: Layer | null;
  readonly name: string | null;
  readonly shapes: readonly Shape[];
}

/** All that a drawing is made of. */
export type Shape = PathShape | TextShape | GroupShape;

/** A drawing in true millimetres, y up; `box` is what must be visible. */
export interface Drawing {
  readonly title: string;
  readonly box: { readonly left: number; readonly bottom: number; readonly right: number; readonly top: number };
  readonly shapes: readonly Shape[];
}

/**
 * A drawing with what its reader must be told of it, in words for the medium to set: `captioned` letters them in for a
 * file that stands alone.
 */
export interface Picture extends Drawing {
  readonly notes: readonly string[];
  /** mm on the drawing for 1 mm of the thing; null where lengths on it mean nothing. */
  readonly scale: number | null;
  /** Height of its capitals, mm. */
  readonly capital: number;
}

/** Letters as outlines: parsed fonts behind a small face, made once from the font files that an app hands in. */
export interface Lettering {
  /** Which glyph stands where: for a writer that keeps each glyph once. */
  readonly lay: (text: string, capital: number, weight: Weight) => LaidText;
  /** mm. */
  readonly width: (text: string, capital: number, weight: Weight) => number;
  readonly glyph: (id: number, weight: Weight) => Glyph;
}

/** A line of text set glyph by glyph, mm. */
export interface LaidText {
  /** In the order they are seen, left to right; `at` is the glyph's own origin on the baseline, mm. */
  readonly glyphs: readonly { readonly id: number; readonly at: number; readonly text: string }[];
  readonly width: number;
  /** mm for one font unit. */
  readonly scale: number;
  /** Codes of what the font cannot draw, such as `U+6F22`, each once. */
  readonly missing: readonly string[];
}

/** One glyph in font units, y up. */
export interface Glyph {
  readonly contours: readonly GlyphContour[];
  readonly advance: number;
}

/** One closed contour of a letter: quadratic curves and lines, nonzero fill over all contours of the text. */
export interface GlyphContour {
  readonly start: Point;
  readonly steps: readonly (
    | { readonly kind: 'line'; readonly to: Point }
    | { readonly kind: 'quadratic'; readonly control: Point; readonly to: Point }
    | { readonly kind: 'cubic'; readonly control1: Point; readonly control2: Point; readonly to: Point }
  )[];
}
