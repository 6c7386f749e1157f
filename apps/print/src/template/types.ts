import type { Box, Path, Point } from '@fayplate/core';
import type { Obstacle, Shape } from '@fayplate/drawing';
import type { Affine } from '../geometry/affine.js';

/** A place to punch, in the template's own frame (as the paper is seen), mm. */
export interface TemplateHole {
  readonly id: string;
  readonly at: Point;
  /** Joins and registration marks keep this far from `at`. */
  readonly keep: number;
}

/** Lettering that belongs to a hole: its name in bold, then what to do there. */
export interface TemplateLabel {
  readonly id: string;
  readonly centre: Point;
  readonly radius: number;
  readonly reach: number;
  /** The best setting first; the same words broken otherwise after it. */
  readonly settings: readonly [readonly string[], ...(readonly string[])[]];
  /** On the small map of the key sheet; null: not named there. */
  readonly short: string | null;
  /** Its edge on that map, where it is no circle. */
  readonly edge?: Path;
}

/** A block of words with no place of its own: it is laid where there is room, nearest to `near`. */
export interface TemplateBlock {
  readonly lines: readonly { readonly text: string; readonly capital: number; readonly weight: 'regular' | 'bold' }[];
  readonly near: Point;
}

/** What is to be printed, in one frame, before any paper is chosen. */
export interface Template {
  readonly what: 'drill' | 'gasket' | 'part' | 'depths';
  /** The side that faces the eye; null where it does not matter. */
  readonly side: 'A' | 'B' | null;
  /** `Drill template, side B up, pump behind`. */
  readonly title: string;
  /** Plate mm → template mm; it flips for side A. One for each part laid out (gaskets are nested). */
  readonly parts: readonly { readonly name: string; readonly fromPlate: Affine }[];
  readonly holes: readonly TemplateHole[];
  readonly shapes: readonly Shape[];
  readonly outlines: readonly Path[];
  /**
   * How near its holes come to their places once punched, mm, and those that must come nearer; null where nothing is
   * punched for a place.
   */
  readonly way: { readonly plusMinus: number; readonly byReadOut: readonly string[] } | null;
  /** Of all that must be on the paper, without lettering. */
  readonly box: Box;
  /** What lettering keeps off beside the holes of the labels. */
  readonly obstacles: readonly Obstacle[];
  readonly labels: readonly TemplateLabel[];
  readonly blocks: readonly TemplateBlock[];
  /** For the title block: the part, its thickness and the like. */
  readonly facts: readonly (readonly [name: string, value: string])[];
  /** Every hole with its cut, for where the drawing has no room. */
  readonly list: HoleList;
}

export interface HoleList {
  readonly columns: readonly { readonly title: string; readonly align: 'left' | 'right' | 'point' }[];
  readonly rows: readonly (readonly string[])[];
}
