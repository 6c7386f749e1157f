import { type Speech, say, sayOdds } from '@fayplate/core';
import type { FeatureKind } from '@fayplate/job';
import type { Candidate, FaceLayout, LaidFeature } from '../types.js';
import { arrangementOf, wholeDrawings } from './arrangement.js';
import { sayLayout } from './candidate.js';

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

/** χ² this much worse is said to be a worse fit: two standard deviations. */
const WORSE = 4;

/** What counts against a rival, beside the candidate that leads. */
const against = (first: Candidate, rival: Candidate, speech: Speech): string => {
  const [worst] = byStrain(rival);
  const worse = rival.chi2 - first.chi2;
  if (worse > WORSE && worst !== undefined)
    return `the readings fit it less well: ${sayMove(worst[0], worst[1], speech)}`;
  const free = first.dof - rival.dof;
  if (free > 0 && arrangementOf(first) === arrangementOf(rival)) {
    return (
      'it fits no better, and ' +
      `${free === 1 ? 'a size' : `${free} sizes`} left free would rarely come so close to a round figure`
    );
  }
  if (free > 0)
    return (
      `it leaves ${free === 1 ? 'one more number' : `${free} more numbers`} free, and ` +
      `${free === 1 ? 'it comes' : 'they come'} out the same as in the first`
    );
  if (free < 0) return 'it is simpler, but less likely to begin with, and fits no better';
  // Most of what puts it second: the fit, or how usual it is.
  if (worse > Math.max(0, Math.log(first.odds / rival.odds))) return 'the readings fit it a little less well';
  return arrangementOf(first) === arrangementOf(rival)
    ? 'it fits about as well, but its sizes are on finer steps, which fewer makers use'
    : 'it fits about as well, but needs finer or less usual divisions';
};

/** The second best, its odds, and what counts against it; null where there is none. */
export const sayRival = (layout: FaceLayout, kindOf: (id: string) => FeatureKind, speech: Speech): string | null => {
  const [first, ...others] = wholeDrawings(layout);
  const rival = [...others].sort((a, b) => b.odds - a.odds)[0];
  if (first === undefined) return null;
  if (rival === undefined || layout.asMeasured > rival.odds) {
    return layout.asMeasured < 0.0005
      ? null
      : `Second best: no simple layout; odds ${sayOdds(layout.asMeasured)}. Against it: so many centres would match ` +
          'a plain drawing by coincidence.';
  }
  return (
    `Second best: ${sayLayout(rival, kindOf, speech)}; odds ${sayOdds(rival.odds)}. Against it: ` +
    `${against(first, rival, speech)}.`
  );
};
