import { type Report, type Speech, say, sayTimes } from '@fayplate/core';
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

/** `5,000`. */
const inThousands = (n: number): string =>
  n < 1000 ? String(n) : `${inThousands(Math.floor(n / 1000))},${String(n % 1000).padStart(3, '0')}`;

/** Where every trial went one way, what can be said is how far from certain it may still be. */
const chance = (g: GoesOn): string => {
  const trials = inThousands(g.trials);
  if (g.probability === 1) return `in all of ${trials} trials, so at least ${sayTimes(g.between[0])}`;
  if (g.probability === 0) return `in none of ${trials} trials, so at most ${sayTimes(g.between[1])}`;
  return (
    `${sayTimes(g.probability)} (${sayTimes(g.between[0]).replace(' times in 100', '')} to ` +
    `${sayTimes(g.between[1]).replace(' times in 100', '')}, by ${trials} trials)`
  );
};

const cure = (g: GoesOn, speech: Speech): string => {
  if (g.ease === 0) return '';
  if (g.ease === null)
    return (
      ' Larger holes do not help: the locating dowels or register do not meet. Ream them at assembly, or make the ' +
      'second one a slot.'
    );
  const larger = `With holes ${say(g.ease, speech)} larger it is 99.7 times in 100`;
  return g.proposal === null ? ` ${larger}.` : ` ${larger}; the smallest fit that does it is ${g.proposal}.`;
};

const asDrawn = (slack: number, speech: Speech): string => {
  if (!Number.isFinite(slack)) return 'No fastener enters it.';
  return slack < 0
    ? `Even as drawn, the tightest fastener needs ${say(-slack, speech)} more room all round.`
    : `As drawn, the tightest fastener has ${say(slack, speech)} to spare all round.`;
};

/** Verdict and reasons for one face. */
export const goesOnReport = (face: string, g: GoesOn, speech: Speech): Report => {
  const first = g.worst === null ? '' : ` ${g.worst} stops it most often.`;
  return [
    {
      kind: 'verdict',
      ok: g.probability >= 0.997,
      text: `${face}: all fasteners enter together ${chance(g)}`,
    },
    {
      kind: 'paragraph',
      text: `${asDrawn(g.nominal.slack, speech)}${first}${cure(g, speech)}`,
    },
  ];
};
