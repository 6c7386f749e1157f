import type { Report } from '@fayplate/core';
import { agrees } from '@fayplate/survey';
import { type Study, platedFaces } from './study.js';
import { type NamedSuspect, suspectsOn } from './suspects.js';

/** Readings that do not agree with the rest, on the faces that the plate rests on. */
export interface Doubts {
  readonly ok: boolean;
  readonly suspects: readonly NamedSuspect[];
  /** Nothing where the readings agree; else one verdict, to stand before what rests on them. */
  readonly report: Report;
}

export const doubtsOf = (study: Study): Doubts => {
  const suspects = platedFaces(study.job).flatMap((face) => suspectsOn(face.name, study.located(face)));
  const named = suspects.map((s) => `${s.face}:${s.reading}`).join(', ');
  const one = suspects.length === 1;
  const text = `Settle ${one ? 'reading' : 'readings'} ${named} first: ${one ? 'it does' : 'they do'} not agree with the rest, and all that follows rests on ${one ? 'it' : 'them'}. \`locate\` says what may be wrong; \`--set-aside\` works without.`;
  // Readings may disagree together though none stands out as the one that is wrong.
  const restless = platedFaces(study.job).filter(
    (f) => study.located(f).suspects.length === 0 && !agrees(study.located(f)),
  );
  const faces = restless.map((f) => f.name).join(' and ');
  const words = [
    ...(suspects.length === 0 ? [] : [text]),
    ...(restless.length === 0
      ? []
      : [
          `The readings of ${faces} disagree by more than their ± allow, though none stands out: a ± may be too small, or several readings wrong. All that follows rests on them.`,
        ]),
  ];
  return {
    ok: words.length === 0,
    suspects,
    report: words.length === 0 ? [] : [{ kind: 'verdict', ok: false, text: words.join(' ') }],
  };
};
