import { type ReadingKind, readingGrammar, readingKinds } from '@fayplate/job';
import type { Misfit, Slip } from './written.js';

/** Kinds that lay an instrument across the same two features. */
const across = readingKinds.map(readingGrammar).filter((g) => g.mistaken > 0);

/**
 * Taken across the same two features in another way than the line says: outside for inside, one far side for another.
 */
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

const WEIGHT = 4;

/**
 * Among more features than this some two always fit by chance, so that a pair with both names wrong is never the likely
 * one.
 */
const MOST = 60;

/**
 * Other features in the same reading, one exchanged at a time, then both; the two ends of a length are the same either
 * way round.
 */
const others = (
  misfit: Misfit,
): { readonly near: readonly (readonly string[])[]; readonly far: readonly (readonly string[])[] } => {
  const { features, kind } = misfit.reading;
  const all = misfit.features;
  const near = features.flatMap((_, k) =>
    all.filter((f) => !features.includes(f)).map((f) => features.map((old, i) => (i === k ? f : old))),
  );
  const [a = '', b = ''] = features;
  const far =
    features.length === 2 && kind !== 'wall' && all.length <= MOST
      ? all
          .flatMap((f, i) => all.slice(i + 1).map((g) => [f, g]))
          .filter(([f = '', g = '']) => ![a, b].includes(f) && ![a, b].includes(g))
      : [];
  return { near, far };
};

/**
 * Taken on other features than the line says. There are many others to choose from, so that each alone is less likely:
 * one wrong name is taken to be five times as common as two.
 */
export const wrongFeatures = (misfit: Misfit): readonly Slip[] => {
  const { kind, point } = misfit.reading;
  if (point !== null || kind === 'line' || kind === 'flush' || kind === 'square' || kind === 'runout') return [];
  const { near, far } = others(misfit);
  const slips = (list: readonly (readonly string[])[], weight: number): Slip[] =>
    list.flatMap((features) => {
      const would = misfit.wouldRead(kind, features);
      if (would === null) return [];
      return [
        {
          says:
            `the wrong ${features.length === 1 ? 'feature' : features.length === 2 ? 'pair' : 'features'}: it fits ` +
            `${kind} ${features.join(' ')}`,
          left: misfit.value - would,
          weight: weight / list.length,
        },
      ];
    });
  return [...slips(near, WEIGHT), ...slips(far, WEIGHT / 5)];
};
