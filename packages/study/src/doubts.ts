import type { Report } from '@fayplate/core';
import { type LocatedFace, agrees, arrangementWords, disagreeWords } from '@fayplate/survey';
import { platedFaces } from './located.js';
import type { Study } from './types.js';

/** A reading that does not fit, by its number and the face that it stands on. */
interface NamedSuspect {
  readonly face: string;
  readonly reading: string;
}

/** Readings that do not fit, and those that cannot be told from them, under the name of where they stand. */
export const suspectsOn = (face: string, located: Pick<LocatedFace, 'suspects'> | null): readonly NamedSuspect[] =>
  (located?.suspects ?? []).flatMap((s) => [s.reading, ...s.tiedWith].map((reading) => ({ face, reading })));

/** Solids that overlap, and other arrangements of the centres that fit as well, each as a sentence. */
export const arrangementsOn = (face: string, located: LocatedFace): readonly string[] =>
  located.stopped.converged ? arrangementWords(located).map((words) => `${face}: ${words}.`) : [];

/** Readings that contradict each other: more readings may still be taken, but nobody should go on without knowing. */
export const contradictionsOn = (face: string, located: LocatedFace): readonly string[] => {
  if (!located.stopped.converged) return [];
  if (located.suspects.length > 0) return [`${face}: ${disagreeWords(located.suspects).join('; ')}.`];
  return agrees(located) ? [] : [`${face}: the readings disagree by more than their ± allow.`];
};

/** Readings that do not agree with the rest, on the faces that the plate rests on. */
interface Doubts {
  readonly ok: boolean;
  readonly suspects: readonly NamedSuspect[];
  /** Nothing where the readings agree; else one verdict, to stand before what rests on them. */
  readonly report: Report;
}

/** The doubts about the faces that the plate joins; located once more only where they are not yet. */
export const doubtsOf = (study: Study): Doubts => {
  const suspects = platedFaces(study.job).flatMap((face) => suspectsOn(face.name, study.located(face)));
  const named = suspects.map((s) => `${s.face}:${s.reading}`).join(', ');
  const one = suspects.length === 1;
  const text =
    `Settle ${one ? 'reading' : 'readings'} ${named} first: ${one ? 'it does' : 'they do'} not agree with the rest, ` +
    `and everything below depends on ${one ? 'it' : 'them'}. \`locate\` says what may be wrong; \`--set-aside\` ` +
    `leaves ${one ? 'it' : 'them'} out.`;
  // Readings may disagree together though none stands out as the one that is wrong.
  const restless = platedFaces(study.job).filter(
    (f) => study.located(f).suspects.length === 0 && !agrees(study.located(f)),
  );
  const faces = restless.map((f) => f.name).join(' and ');
  const unsettled = platedFaces(study.job).flatMap((f) =>
    arrangementWords(study.located(f)).map((said) => `${f.name}: ${said}. Everything below depends on it.`),
  );
  const words = [
    ...unsettled,
    ...(suspects.length === 0 ? [] : [text]),
    ...(restless.length === 0
      ? []
      : [
          `The readings of ${faces} disagree by more than their ± allow, and no single one stands out: a ± may be ` +
            'too small, or several readings wrong. Everything below depends on them.',
        ]),
  ];
  return {
    ok: words.length === 0,
    suspects,
    report: words.length === 0 ? [] : [{ kind: 'verdict', ok: false, text: words.join(' ') }],
  };
};
