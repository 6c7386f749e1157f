import { type Speech, sayAll } from '@fayplate/core';
import type { LocatedFace, UncheckedReading } from '../types.js';
import { sayAmount } from './amount.js';

/** Readings named one by one, and no more than these. */
const NAMED = 6;

const leastWords = (u: UncheckedReading, speech: Speech): string =>
  u.detectable === null ? u.text : `${u.text} (up to ${sayAmount(u.detectable, u.measures, speech)})`;

/** What nothing checks, and how to check it; nothing where all is checked, or where nothing is (which the fit says). */
export const uncheckedWords = ({ unchecked, fit }: LocatedFace, speech: Speech): readonly string[] => {
  if (unchecked.length === 0 || fit.dof <= 0) return [];
  const named = unchecked.slice(0, NAMED).map((u) => leastWords(u, speech));
  const more = unchecked.length - named.length;
  const checks = [
    ...new Set(unchecked.slice(0, NAMED).map((u) => (u.check === u.text ? `${u.check} again` : u.check))),
  ];
  return [
    `A misreading here would not show: ${sayAll(more > 0 ? [...named, `${more} more`] : named)}. To check: ${sayAll(checks)}.`,
  ];
};
