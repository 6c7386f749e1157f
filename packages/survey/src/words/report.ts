import type { Report, Speech } from '@fayplate/core';
import { sayAll } from '@fayplate/core';
import type { Face } from '@fayplate/job';
import type { LocatedFace } from '../types.js';
import { agrees, isSound } from '../verdict.js';
import { arrangementBlocks, arrangementWords } from './arrangements.js';
import { sayAmount } from './readings.js';
import { centresTable, isMeasured, standWords, standardBlocks } from './centres.js';
import { fitWords, stoppedWords, uncheckedWords } from './fit.js';
import { explanationBlocks } from './explanations.js';
import { nextBlocks } from './next.js';
import { disagreeWords, suspectBlocks } from './suspects.js';

const verdictWords = (located: LocatedFace): string => {
  const { stopped, undetermined, suspects } = located;
  if (!stopped.converged) return `No answer was found: ${stoppedWords(stopped.why)}.`;
  const faults = [
    ...(undetermined.length === 0 ? [] : [`the readings do not fix ${sayAll(undetermined)}`]),
    ...arrangementWords(located),
    ...disagreeWords(suspects),
  ];
  if (faults.length === 0 && !agrees(located))
    return (
      'Every centre is fixed, but the readings disagree by more ' +
      'than their ± allow, and no single one stands out as wrong.'
    );
  if (faults.length === 0 && !located.hand.settled)
    return 'Every centre is fixed, but the readings fit this shape and its mirror image alike.';
  const said = faults.join('; ');
  return faults.length === 0
    ? 'Every centre is fixed, and no reading is suspect.'
    : `${said.slice(0, 1).toUpperCase()}${said.slice(1)}.`;
};

/** Not yet, where nothing but the search is missing. */
const unsearched = (located: LocatedFace): { readonly answer?: 'not yet' } =>
  !located.arrangements.searched && isSound({ ...located, arrangements: { ...located.arrangements, searched: true } })
    ? { answer: 'not yet' }
    : {};

const zeroWords = (located: LocatedFace, speech: Speech): readonly string[] =>
  [...located.zeros].map(([name, z]) => {
    const amount = sayAmount(Math.abs(z.value), z.measures, speech);
    return (
      `All readings by ${name} are about ${amount} too ${z.value > 0 ? 'large' : 'small'} (± ` +
      `${sayAmount(z.plusMinus, z.measures, speech)}); the centres are corrected for it.`
    );
  });

const asideWords = ({ aside }: LocatedFace): readonly string[] =>
  aside.map(({ id, text }) =>
    id === text ? `Set aside, not used: ${text}.` : `Set aside, not used: reading ${id}, ${text}.`,
  );

/**
 * One face in words: the verdict, the centres with their ±, how the readings agree, suspects, what is loose, and what
 * to measure next.
 */
export const locateReport = (face: Face, located: LocatedFace, speech: Speech): Report => {
  const list = (items: readonly string[]): Report => (items.length === 0 ? [] : [{ kind: 'list', items }]);
  const head: Report = [
    { kind: 'heading', level: 2, text: `Centres of ${face.name}` },
    { kind: 'verdict', ok: isSound(located), ...unsearched(located), text: verdictWords(located) },
  ];
  if (!located.stopped.converged) return [...head, ...list(located.warnings)];
  return [
    ...head,
    ...standardBlocks(face, speech),
    { kind: 'paragraph', text: standWords(face, located) },
    ...(located.features.size === 0 ? [] : [centresTable(located, speech)]),
    ...(isMeasured(face) ? [{ kind: 'paragraph' as const, text: fitWords(located) }] : []),
    ...list([
      ...located.freedoms,
      ...asideWords(located),
      ...zeroWords(located, speech),
      ...uncheckedWords(located, speech),
      ...located.warnings,
    ]),
    ...arrangementBlocks(located, speech),
    ...suspectBlocks(located, speech),
    ...explanationBlocks(located, speech),
    ...nextBlocks(located, speech),
  ];
};
