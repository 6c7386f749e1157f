import { type Requirement, type UnknownId, notKnown } from '@fayplate/core';

const titleOf = (id: UnknownId): string => id.replaceAll('-', ' ');

/** Words that a sentence here begins with; a name at the start keeps its letters as they are written. */
const FIRST = ['How', 'Whether', 'The', 'Nothing', 'Where', 'What', 'If', 'No', 'One', 'Which'] as const;

const lower = (text: string): string =>
  FIRST.some((w) => text.startsWith(`${w} `)) ? text.charAt(0).toLowerCase() + text.slice(1) : text;

const upper = (text: string): string =>
  FIRST.some((w) => text.startsWith(`${w.toLowerCase()} `)) ? text.charAt(0).toUpperCase() + text.slice(1) : text;

/** What is not known, from its sentence: what it is, and after the first colon what settles it. */
export const unknown = (id: UnknownId, text: string): Requirement => {
  const plain = lower(text.replace(/\.$/, ''));
  const at = plain.indexOf(': ');
  return at < 0
    ? notKnown(id, titleOf(id), plain, null)
    : notKnown(id, titleOf(id), plain.slice(0, at), plain.slice(at + 2));
};

/** The sentence that it was made from, for lists. */
export const sayUnknown = (r: Requirement): string => `${upper(r.because)}${r.cure === null ? '' : `: ${r.cure}`}.`;
