import { type ReadingKind, readingGrammar, readingKinds } from '@fayplate/job';
import type { Misfit, Slip } from './slip.js';

/** Kinds that lay an instrument across the same two features. */
const across = readingKinds.map(readingGrammar).filter((g) => g.mistaken > 0);

/** Taken across the same two features in another way than the line says: outside for inside, one far side for another. */
export const wrongKind = (misfit: Misfit): readonly Slip[] => {
  const { kind, features } = misfit.reading;
  const [a, b] = features;
  if (a === undefined || b === undefined) return [];
  const slip = (as: ReadingKind, order: readonly string[], says: string, weight: number): Slip[] => {
    const would = misfit.wouldRead(as, order);
    return would === null ? [] : [{ says, left: misfit.value - would, weight }];
  };
  if (kind === 'wall') return slip('wall', [b, a], `${b} lies inside ${a}`, 1);
  if (!across.some((k) => k.kind === kind)) return [];
  return [
    ...across
      .filter((k) => k.kind !== kind)
      .flatMap((k) => slip(k.kind, [a, b], `${k.kind} read for ${kind}`, k.mistaken)),
    ...(kind === 'step' ? slip('step', [b, a], `step ${b} ${a} read for step ${a} ${b}`, 4) : []),
  ];
};
