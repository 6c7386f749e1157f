import type { Report } from '@fayplate/core';
import { type Study, platedFaces } from './study.js';

/** Readings that do not agree with the rest, on the faces that the plate rests on. */
export interface Doubts {
  readonly ok: boolean;
  readonly suspects: readonly { readonly face: string; readonly reading: string }[];
  /** Nothing where every reading agrees; else one verdict, to stand before what rests on those readings. */
  readonly report: Report;
}

export const doubtsOf = (study: Study): Doubts => {
  const suspects = platedFaces(study.job).flatMap((face) =>
    study.located(face).suspects.flatMap((s) => [s.reading, ...s.tiedWith].map((reading) => ({ face: face.name, reading }))),
  );
  const named = suspects.map((s) => `${s.face}:${s.reading}`).join(', ');
  const one = suspects.length === 1;
  const text = `Settle ${one ? 'reading' : 'readings'} ${named} first: ${one ? 'it does' : 'they do'} not agree with the rest, and all that follows rests on ${one ? 'it' : 'them'}. \`locate\` says what may be wrong; \`--set-aside\` works without.`;
  return { ok: suspects.length === 0, suspects, report: suspects.length === 0 ? [] : [{ kind: 'verdict', ok: false, text }] };
};
