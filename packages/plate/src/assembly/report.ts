import { type Report, type Speech, say } from '@fayplate/core';
import type { GoesOn } from '../types.js';

/** The `goes_on` entry of one face; the turn in degrees. */
export const goesOnJson = (g: GoesOn): object => ({
  probability: g.probability,
  standard_error: g.standardError,
  between: g.between,
  trials: g.trials,
  worst: g.worst,
  stops: Object.fromEntries(g.stops),
  slack: Number.isFinite(g.nominal.slack) ? g.nominal.slack : null,
  ease: g.ease,
  proposal: g.proposal,
});

const chance = (p: number): string => (p >= 0.9999 ? 'more than 9,999 in 10,000' : p <= 0.0001 ? 'fewer than 1 in 10,000' : `${Number((100 * p).toFixed(p > 0.99 ? 2 : 1))} in 100`);

const cure = (g: GoesOn, speech: Speech): string => {
  if (g.ease === 0) return '';
  if (g.ease === null) return ' No larger hole will help: it is the locating dowels or register that do not meet. Ream them at assembly, or make the second one a slot.';
  const larger = `Holes larger by ${say(g.ease, speech)} would reach 99.7 in 100`;
  return g.proposal === null ? ` ${larger}.` : ` ${larger}; of the fits the smallest that does is ${g.proposal}.`;
};

/** Verdict and reasons for one face. */
export const goesOnReport = (face: string, g: GoesOn, speech: Speech): Report => {
  const error = 200 * g.standardError;
  const first = g.worst === null ? '' : ` ${g.worst} stops it most often.`;
  return [
    {
      kind: 'verdict',
      ok: g.probability >= 0.997,
      text: `${face}: all fasteners enter together ${chance(g.probability)} (± ${error.toFixed(error < 0.1 ? 2 : 1)} in 100 by ${g.trials.toLocaleString('en-GB')} trials)`,
    },
    {
      kind: 'paragraph',
      text: `With everything as drawn the tightest fastener has ${say(g.nominal.slack, speech)} to spare all round.${first}${cure(g, speech)}`,
    },
  ];
};
