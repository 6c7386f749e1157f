import { type Speech, distance, sayNumber } from '@fayplate/core';
import type { FeatureKind } from '@fayplate/job';
import type { Candidate } from '../types.js';
import { sayLayout } from './candidate.js';

/** A coordinate, free of the last digits' noise, so that a half rounds alike on both sides of an axis. */
export const sayPlace = (mm: number, speech: Speech): string =>
  sayNumber(Math.round(mm * 1e7) / 1e7, { ...speech, fraction: null });

/** The feature that two candidates put farthest apart. */
const farthest = (a: Candidate, b: Candidate): string | null => {
  const [most] = [...a.features]
    .map(([id, f]) => ({ id, apart: distance(f, b.features.get(id) ?? f) }))
    .sort((p, q) => q.apart - p.apart);
  return most === undefined || most.apart < 1e-6 ? null : most.id;
};

/** Candidates in words; where two would read alike (other steps of one grid), each with the place of the feature that they put farthest apart. */
export const sayApart = (
  candidates: readonly Candidate[],
  kindOf: (id: string) => FeatureKind,
  speech: Speech,
): readonly string[] => {
  const words = candidates.map((c) => sayLayout(c, kindOf, speech));
  return candidates.map((c, k) => {
    const alike = candidates.find((_, j) => j !== k && words[j] === words[k]);
    const id = alike === undefined ? null : farthest(c, alike);
    const at = id === null ? undefined : c.features.get(id);
    return at === undefined
      ? (words[k] ?? '')
      : `${words[k] ?? ''} (${id ?? ''} at ${sayPlace(at.x, speech)}, ${sayPlace(at.y, speech)})`;
  });
};
