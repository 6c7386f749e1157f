import type { Network } from '../network/network.js';
import type { StoppedWhy } from '../types.js';

/** Why the descent ended. Only `converged` is an answer. */
export interface Stopped {
  readonly converged: boolean;
  readonly why: StoppedWhy;
  readonly iterations: number;
}

/**
 * A network at the minimum that a start leads to, with the linear algebra that later steps need. N = JᵀWJ is singular
 * where anything can still move (the whole face, unless bench readings hold it): N⁻ stands for one of its generalised
 * inverses, with `pinned` unknowns held still. Functions of the unknowns that no null vector changes do not depend on
 * that choice.
 */
export interface Adjustment {
  readonly network: Network;
  /** One value per unknown, mm or radians. */
  readonly values: Float64Array;
  readonly chi2: number;
  /** Observations less rank. */
  readonly dof: number;
  readonly stopped: Stopped;
  /** What can move without changing any reading: rigid motions included; each of length `unknowns.count`. */
  readonly nullSpace: readonly Float64Array[];
  /** N⁻ b. `b` must be orthogonal to every null vector. */
  readonly solve: (b: Float64Array) => Float64Array;
  /** N⁻ at (i, j) for two unknowns that share an observation or a feature. */
  readonly cofactor: (i: number, j: number) => number;
  /**
   * One entry per observation: redundancy number 0..1, the share of an error that shows in the reading's own residual.
   */
  readonly redundancy: Float64Array;
  /** Value less model, mm or radians, one per observation. */
  readonly residuals: Float64Array;
}

/** Whether one sum of squares is no larger than another, apart from what no shop could measure. */
export const asLow = (a: number, b: number): boolean => a <= b + 1e-6 * (1 + b);
