import { sayChance } from '@fayplate/core';
import type { LocatedFace } from '../types.js';

const spare = (dof: number): string => (dof === 1 ? '1 reading to spare' : `${dof} readings to spare`);

/** So many suspects are seldom as many slips. */
const MANY = 3;

/** What is amiss: as many readings as are suspect, or the ±; what every ± would have to be for χ² to come out at its degrees of freedom. */
const amissWords = ({ fit, suspects }: LocatedFace): string => {
  const wrong = suspects.length > 1 ? `${suspects.length} of them are` : 'One of them is';
  if (suspects.length < MANY) return `${wrong} wrong, or a ± is too small.`;
  const wider = Math.sqrt(fit.chi2 / fit.dof);
  return `${wrong} wrong, or a ± is too small: were every ± ${wider < 10 ? wider.toFixed(1) : Math.ceil(wider)} times as wide, they would agree.`;
};

/** How well the readings agree, in one sentence, and how far an alarm can be trusted. */
export const fitWords = (located: LocatedFace): string => {
  const { fit, falseAlarm } = located;
  if (fit.p === null)
    return 'No reading is to spare, so that none can be checked by the others: a misread one would go unseen.';
  const alarm = `A sound reading of this face would be called suspect ${sayChance(falseAlarm)}.`;
  if (fit.p < 0.01) {
    return `With ${spare(fit.dof)}, they agree worse than their ± allows: sound readings would be this far apart ${sayChance(fit.p)}. ${amissWords(located)} ${alarm}`;
  }
  if (fit.p > 0.99) {
    return `With ${spare(fit.dof)}, they agree better than their ± leads one to expect (sound readings come this close ${sayChance(1 - fit.p)}): the ± may be wider than need be. ${alarm}`;
  }
  return `With ${spare(fit.dof)}, they agree as readings of this ± should: sound ones would be further apart ${sayChance(fit.p)}. ${alarm}`;
};
