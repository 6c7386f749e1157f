import { type Requirement, type Speech, type UnknownId, cureFor, notKnown } from '@fayplate/core';

const titleOf = (id: UnknownId): string => id.replaceAll('-', ' ');

/** Words that a sentence here begins with; a name at the start keeps its letters as they are written. */
const FIRST = 'How Whether The Nothing Where What If No One Which Cutting Fitting Opening Tapping Taking'.split(' ');

const lower = (text: string): string =>
  FIRST.some((w) => text.startsWith(`${w} `)) ? text.charAt(0).toLowerCase() + text.slice(1) : text;

const upper = (text: string): string =>
  FIRST.some((w) => text.startsWith(`${w.toLowerCase()} `)) ? text.charAt(0).toUpperCase() + text.slice(1) : text;

/**
 * What is not known, from its sentence: what it is, and after the first colon what settles it. `atBench` is what
 * settles it in other words, where the sentence names a word of the job file (between backticks).
 */
export const unknown = (id: UnknownId, text: string, atBench?: string): Requirement => {
  const plain = lower(text.replace(/\.$/, ''));
  const at = plain.indexOf(': ');
  return at < 0
    ? notKnown(id, titleOf(id), plain, null)
    : notKnown(id, titleOf(id), plain.slice(0, at), plain.slice(at + 2), atBench);
};

/** The sentence that it was made from, for lists. */
export const sayUnknown = (r: Requirement, speech: Pick<Speech, 'atBench'> = {}): string => {
  const cure = cureFor(r, speech);
  return `${upper(r.because)}${cure === null ? '' : `: ${cure}`}.`;
};
