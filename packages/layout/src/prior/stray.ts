/** Half of the holes that miss their place do so by less than about this, mm: a punch mark drawn off by hand. */
const TYPICAL = 0.3;

/** Log prior density of a hole that was meant for a place but drilled `away` mm from it, per mm²: Cauchy's law in the plane. */
export const logStray = (away: number): number => Math.log(TYPICAL / (2 * Math.PI)) - 1.5 * Math.log(away * away + TYPICAL * TYPICAL);
