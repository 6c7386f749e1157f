import { type LocatedFace, agrees, disagreeWords } from '@fayplate/survey';

/** Readings that contradict the rest hinder no reading to come, but nobody should go on without knowing. */
export const contradictionsOn = (face: string, located: LocatedFace): readonly string[] => {
  if (!located.stopped.converged) return [];
  if (located.suspects.length > 0) return [`${face}: ${disagreeWords(located.suspects).join('; ')}.`];
  return agrees(located) ? [] : [`${face}: the readings together agree worse than their ± allow.`];
};
