import { sayChance } from '@fayplate/core';
import type { LocatedFace } from '../types.js';

const spare = (dof: number): string => (dof === 1 ? '1 spare reading' : `${dof} spare readings`);

/** So many suspects are seldom as many slips. */
const MANY = 3;

/** What is amiss: as many readings as are suspect, or the ±; what every ± would have to be for χ² to come out at its degrees of freedom. */
const amissWords = ({ fit, suspects }: LocatedFace): string => {
  const wrong = suspects.length > 1 ? `${suspects.length} readings are` : 'One reading is';
  if (suspects.length < MANY) return `${wrong} wrong, or a ± is too small.`;
  const wider = Math.sqrt(fit.chi2 / fit.dof);
  return `${wrong} wrong, or a ± is too small: with every ± ${wider < 10 ? wider.toFixed(1) : Math.ceil(wider)} times as wide they would agree.`;
};

/** How well the readings agree, in one sentence, and how far an alarm can be trusted. */
export const fitWords = (located: LocatedFace): string => {
  const { fit, falseAlarm } = located;
  if (fit.p === null) return 'There are no spare readings, so none checks another: a misreading would not show.';
  const on = `(${spare(fit.dof)})`;
  const alarm = `A good reading of this face is called suspect by mistake ${sayChance(falseAlarm)}.`;
  if (fit.p < 0.01) {
    return `The fit is poor: random error alone would be this bad ${sayChance(fit.p)} ${on}. ${amissWords(located)} ${alarm}`;
  }
  if (fit.p > 0.99) {
    return `The fit is better than the ± allow for: random error alone would be this small ${sayChance(1 - fit.p)} ${on}. The ± may be too wide. ${alarm}`;
  }
  return `The fit is normal: random error alone would be worse ${sayChance(fit.p)} ${on}. ${alarm}`;
};
