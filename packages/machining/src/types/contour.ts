import type { Path, Point } from '@fayplate/core';
import type { Side } from '@fayplate/plate';

/** A bridge of metal between plate and blank; mm. */
export interface Tab {
  /** Where the cutter's centre is over its middle on the last pass, as set with the contour's side uppermost. */
  readonly at: Point;
  /** At its narrowest. */
  readonly wide: number;
  /** How far the cutter's centre goes while it is raised. */
  readonly long: number;
}

/** The outline cut by an end mill; mm, as set with its side uppermost, depths below the flat of that side. */
export interface Contour {
  readonly side: Side;
  /** Diameter of the end mill. */
  readonly cutter: number;
  /** What roughing leaves for the last pass; 0: there is none apart. */
  readonly leave: number;
  /**
   * Paths of the cutter's centre, clockwise, from where it comes in; `rough` is null where a hollow leaves no room for
   * two.
   */
  readonly rough: Path | null;
  readonly last: Path;
  /** How deep each time round, in order. */
  readonly passes: { readonly rough: readonly number[]; readonly last: readonly number[] };
  /**
   * The direction in which the cutter comes off the metal, of length 1, and how far from the path it is clear of the
   * blank.
   */
  readonly off: Point;
  readonly far: number;
  readonly tabs: readonly Tab[];
  /** Depth at which the tabs begin. */
  readonly tabTop: number;
  /** rev/min and mm/min; null where the material is not known. */
  readonly speed: number | null;
  readonly feed: number | null;
}

/** The contour, or in words why the cutter cannot make it. */
export type ContourMade =
  | { readonly ok: true; readonly contour: Contour }
  | { readonly ok: false; readonly faults: readonly string[] };
