/** Chance that some hole of a layout was meant for its place but drilled off it. */
export const STRAYED = 0.02;
/** Half of such holes miss their place by less than about this, mm: a punch mark drawn off by hand. */
const TYPICAL = 0.3;
/** A miss is only spoken of where it is plain: nothing less than this many standard deviations is typical of one. */
const PLAIN = 6;

/**
 * Log prior density of a strayed hole `away` mm from its place, per mm²: Cauchy's law in the plane, of scale τ = 0.3 mm or 6 σ, whichever is more
 * (σ of the measured place in one direction: a stray that the readings could hide is no other hypothesis).
 */
export const logStray = (away: number, sigma: number): number => {
  const scale = Math.max(TYPICAL, PLAIN * sigma);
  return Math.log(scale / (2 * Math.PI)) - 1.5 * Math.log(away * away + scale * scale);
};
