import type { StoppedWhy } from '../types.js';

const words: Readonly<Record<StoppedWhy, string>> = {
  'at rest': 'a minimum was reached',
  'last digit': 'a minimum was reached, to the last digit',
  'no descent': 'no step makes the readings agree better, yet they do not agree best',
  'iterations spent': 'the readings came to no agreement in the steps allowed',
  'saddle after saddle': 'the readings fit several shapes equally badly',
  singular: 'the readings contradict each other so far that centres fall together',
};

/** Why the adjustment ended, as the end of a sentence. */
export const stoppedWords = (why: StoppedWhy): string => words[why];
