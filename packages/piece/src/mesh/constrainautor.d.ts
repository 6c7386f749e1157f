import type Delaunator from 'delaunator';

/** Its own types are its sources, which are not written for this compiler's settings. */
export default class Constrainautor {
  /** Takes over a triangulation; each edge, as two numbers of points, becomes one of its edges. */
  constructor(del: Delaunator<unknown>, edges?: readonly (readonly [number, number])[]);
  /** Whether a half-edge is one of the edges asked for. */
  isConstrained(edge: number): boolean;
}
