import { type Speech, say } from '@fayplate/core';
import type { Candidate, LaidFeature } from '../types.js';

const places = (speech: Speech): number => (speech.unit === 'in' ? 4 : 3);

/** `P3 would move 0.02 mm, within its ± 0.05 mm`. */
export const sayMove = (id: string, f: LaidFeature, speech: Speech): string => {
  const plain = { ...speech, fraction: null };
  const band = `${f.shift <= f.within ? 'within' : 'beyond'} its ± ${say(f.within, plain, places(speech))}`;
  return `${id} would move ${say(f.shift, plain, places(speech))}, ${band}`;
};

/** Features from the one that moves most against its own ± down. */
export const byStrain = (c: Candidate): readonly (readonly [string, LaidFeature])[] =>
  [...c.features].sort((a, b) => b[1].shift / (b[1].within + 1e-9) - a[1].shift / (a[1].within + 1e-9));
