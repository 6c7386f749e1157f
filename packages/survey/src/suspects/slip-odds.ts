import type { Slip } from '../guess/slip.js';

/** How often a reading is misread or mistyped (a judgement). */
export const SLIP_RATE = 0.01;
/** Slips of any size from the least that an instrument shows to the greatest that a face allows: as likely in each factor of ten. */
const DECADES = Math.log(1e4);
/** Of all slips those that are no common slip of a scale, a digit, a unit, a kind or a feature (a judgement). */
const UNKNOWN = 0.7;

/**
 * How much likelier an error `e`, known to a standard uncertainty of `s`, is as a slip than by nothing at all: the density of a slip there
 * (of unknown size, or one of the common ones) times the width that the other readings leave. Free of unit.
 */
export const slipEvidence = (e: number, s: number, common: readonly Slip[]): number => {
  const unknown = 1 / (2 * DECADES * Math.max(Math.abs(e), s));
  const all = common.reduce((sum, c) => sum + c.weight, 0);
  const known = common.reduce(
    (sum, c) =>
      sum + (all > 0 ? c.weight / all : 0) * (Math.exp(-0.5 * (c.left / s) ** 2) / (s * Math.sqrt(2 * Math.PI))),
    0,
  );
  return (UNKNOWN * unknown + (1 - UNKNOWN) * known) * s * Math.sqrt(2 * Math.PI);
};
