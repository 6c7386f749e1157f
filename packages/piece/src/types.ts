import type { Path } from '@fayplate/core';
import type { TextShape } from '@fayplate/drawing';
import type { Side } from '@fayplate/plate';

/**
 * One opening of the test piece: the cuts of the plate that it stands for, and its closed path, counter-clockwise, mm.
 */
export interface Opening {
  /** Ids of the plate's holes and bores that it is made of; more than one where they run into each other. */
  readonly of: readonly string[];
  readonly path: Path;
}

/** A flat copy of the plate to try on both parts before metal is cut: outline, openings and names in one plane, mm. */
export interface TestPiece {
  /** The side that faces the eye; side A is the mirror image of side B. */
  readonly side: Side;
  /** The outside, counter-clockwise; more than one where the openings cut it apart. */
  readonly outlines: readonly Path[];
  readonly openings: readonly Opening[];
  /** Names and words, wholly on the metal. */
  readonly texts: readonly TextShape[];
  /** What the piece does not try, what it does otherwise than the plate; plain sentences. */
  readonly notes: readonly string[];
}

/** Two numbers of a mesh: three coordinates a vertex, three vertices a triangle, counter-clockwise from outside. */
export interface Mesh {
  readonly vertices: readonly (readonly [x: number, y: number, z: number])[];
  readonly triangles: readonly (readonly [a: number, b: number, c: number])[];
}
