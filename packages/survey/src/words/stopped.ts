import type { StoppedWhy } from '../types.js';

const words: Readonly<Record<StoppedWhy, string>> = {
  'at rest': 'a minimum was reached',
  'last digit': 'a minimum was reached, to the last digit',
  'no descent': 'no step improves the fit, yet it is not at its best',
  'iterations spent': 'the fit did not settle in the iterations allowed',
  'saddle after saddle': 'the readings fit several shapes equally badly',
  singular: 'the readings contradict each other so badly that centres fall on one another',
};

/** Why the adjustment ended, as the end of a sentence. */
export const stoppedWords = (why: StoppedWhy): string => words[why];
