import type { Candidate } from '../types.js';
import { type Reporting, candidate, sameDrawing } from './candidate.js';
import type { Settled } from './quantise.js';
import type { Composition } from './weigh.js';

/** Candidates are listed, none or two at the least, until what is left has less than these odds together, or so many are listed. */
const LEFT = 0.002;
const MOST_LISTED = 48;

export interface Weighed {
  readonly composition: Composition;
  readonly way: Settled;
  readonly odds: number;
}

/**
 * Hypotheses told as candidates. Those that imply the same drawing, the same positions with the same freedom (a square of free size and four
 * equal divisions of a free circle), are one candidate in the words of the likelier. Likeliest arrangement first, and within it the likeliest sizes:
 * sizes that the readings cannot settle do not push the right arrangement behind a wrong one. The few left out have their odds shared out.
 */
export const list = (
  reporting: Reporting,
  all: readonly Weighed[],
  asMeasured: number,
): { readonly candidates: readonly Candidate[]; readonly asMeasured: number } => {
  const listed: { candidate: Candidate; readonly composition: Composition }[] = [];
  let left = 1 - asMeasured;
  for (const { composition, way, odds } of [...all].sort((a, b) => b.odds - a.odds).slice(0, MOST_LISTED)) {
    if (left < LEFT && listed.length !== 1) break;
    const made = candidate(reporting, composition.groups, way, odds);
    if (made === null) continue;
    left -= odds;
    const same = listed.find((l) => sameDrawing(l.candidate, made));
    if (same === undefined) listed.push({ candidate: made, composition });
    else same.candidate = { ...same.candidate, odds: same.candidate.odds + odds };
  }
  const sum = asMeasured + listed.reduce((s, l) => s + l.candidate.odds, 0);
  const whole = (c: Composition): number =>
    listed.reduce((s, l) => s + (l.composition === c ? l.candidate.odds : 0), 0);
  return {
    asMeasured: asMeasured / sum,
    candidates: listed
      .map((l) => ({ candidate: { ...l.candidate, odds: l.candidate.odds / sum }, whole: whole(l.composition) }))
      .sort((a, b) => b.whole - a.whole || b.candidate.odds - a.candidate.odds)
      .map((l) => l.candidate),
  };
};
