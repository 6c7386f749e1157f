import { logFactorial } from '../prior/logs.js';

/** Log of the number of ways to match features in p pairs with m left over. */
export const logPairings = (p: number, m: number): number =>
  logFactorial(2 * p + m) - logFactorial(m) - logFactorial(p) - p * Math.log(2);
