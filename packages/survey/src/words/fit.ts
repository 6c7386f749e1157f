import type { LocatedFace } from '../types.js';
import { chanceWords } from './chance.js';

const spare = (dof: number): string => (dof === 1 ? '1 reading to spare' : `${dof} readings to spare`);

/** How well the readings agree, in one sentence, and how far an alarm can be trusted. */
export const fitWords = ({ fit, falseAlarm }: LocatedFace): string => {
  if (fit.p === null) return 'No reading is to spare, so that none can be checked by the others: a misread one would go unseen.';
  const alarm = `A sound reading of this face would be called suspect ${chanceWords(falseAlarm)}.`;
  if (fit.p < 0.01) {
    return `With ${spare(fit.dof)}, they agree worse than their ± allows: sound readings would be this far apart ${chanceWords(fit.p)}. One of them is wrong, or a ± is too small. ${alarm}`;
  }
  if (fit.p > 0.99) {
    return `With ${spare(fit.dof)}, they agree better than their ± leads one to expect (sound readings come this close ${chanceWords(1 - fit.p)}): the ± may be wider than need be. ${alarm}`;
  }
  return `With ${spare(fit.dof)}, they agree as readings of this ± should: sound ones would be further apart ${chanceWords(fit.p)}. ${alarm}`;
};
