import { type Speech, sayAll, sayChance } from '@fayplate/core';
import type { LocatedFace, StoppedWhy, UncheckedReading } from '../types.js';
import { sayAmount } from './readings.js';

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

const spare = (dof: number): string => (dof === 1 ? '1 spare reading' : `${dof} spare readings`);

/** So many suspects are seldom as many slips. */
const MANY = 3;

/**
 * What is wrong: as many readings as are suspect, or the ±; what every ± would have to be for χ² to come out at its
 * degrees of freedom.
 */
const amissWords = ({ fit, suspects }: LocatedFace): string => {
  const wrong = suspects.length > 1 ? `${suspects.length} readings are` : 'One reading is';
  if (suspects.length < MANY) return `${wrong} wrong, or a ± is too small.`;
  const wider = Math.sqrt(fit.chi2 / fit.dof);
  return (
    `${wrong} wrong, or a ± is too small: with every ± ${wider < 10 ? wider.toFixed(1) : Math.ceil(wider)} times as ` +
    'wide they would agree.'
  );
};

/** How well the readings agree, in one sentence, and how far an alarm can be trusted. */
export const fitWords = (located: LocatedFace): string => {
  const { fit, falseAlarm } = located;
  if (fit.p === null) return 'There are no spare readings, so none checks another: a misreading would not show.';
  const on = `(${spare(fit.dof)})`;
  const alarm = `A good reading of this face is called suspect by mistake ${sayChance(falseAlarm)}.`;
  if (fit.p < 0.01) {
    return (
      'The fit is poor: random error alone would be this bad ' +
      `${sayChance(fit.p)} ${on}. ${amissWords(located)} ${alarm}`
    );
  }
  if (fit.p > 0.99) {
    return (
      `The fit is better than the ± allow for: random error alone would be this small ${sayChance(1 - fit.p)} ${on}. ` +
      `The ± may be too wide. ${alarm}`
    );
  }
  return `The fit is normal: random error alone would be worse ${sayChance(fit.p)} ${on}. ${alarm}`;
};

/** Readings named one by one, and no more than these. */
const NAMED = 6;

const leastWords = (u: UncheckedReading, speech: Speech): string =>
  u.detectable === null ? u.text : `${u.text} (up to ${sayAmount(u.detectable, u.measures, speech)})`;

/** What nothing checks, and how to check it; nothing where all is checked, or where nothing is (which the fit says). */
export const uncheckedWords = ({ unchecked, fit }: LocatedFace, speech: Speech): readonly string[] => {
  if (unchecked.length === 0 || fit.dof <= 0) return [];
  const named = unchecked.slice(0, NAMED).map((u) => leastWords(u, speech));
  const more = unchecked.length - named.length;
  const checks = [
    ...new Set(unchecked.slice(0, NAMED).map((u) => (u.check === u.text ? `${u.check} again` : u.check))),
  ];
  return [
    `A misreading here would not show: ${sayAll(more > 0 ? [...named, `${more} more`] : named)}. To check: ` +
      `${sayAll(checks)}.`,
  ];
};
