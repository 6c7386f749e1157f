import { type Block, type Report, type Speech, say, sayMeasure, sayNearest, sayNumber } from '@fayplate/core';
import { type Face, againstStandard, sayLimits } from '@fayplate/job';
import type { Frame, LocatedFace } from '../types.js';

const viewWords = (viewed: Face['viewed']): string =>
  viewed === 'from behind'
    ? 'Seen from behind, through the part'
    : viewed === 'off the old plate'
      ? 'Measured on the side of the old plate that lay against the part: a mirror image of the part, turned over ' +
        'when the plate is laid out'
      : `Seen ${viewed}`;

const frameWords = (frame: Frame): string => {
  const from =
    'X and Y are measured from ' + (frame.origin === 'mean of centres' ? 'the mean of the centres' : frame.origin);
  if ('across' in frame) return `${from}; X runs along the line from ${frame.across[0]} to ${frame.across[1]}`;
  if ('up' in frame) return `${from}; ${frame.up} is straight up`;
  if (frame.direction === 'bench') return `${from}; up is the Y of the places that were read`;
  return typeof frame.direction === 'object'
    ? `${from}; ${frame.direction.up} is straight up`
    : `${from}; up is where the clock positions agree best`;
};

/** How the mirror image is ruled out. */
const handWords = (by: LocatedFace['hand']['by']): string =>
  by.startsWith('the shape')
    ? 'The shape is its own mirror image.'
    : `${by.slice(0, 1).toUpperCase()}${by.slice(1)} rule out the mirror image.`;

/** Which way the face is seen, from where the numbers run, and whether the mirror image is ruled out. */
export const standWords = (face: Face, located: LocatedFace): string =>
  `${viewWords(face.viewed)}. ` +
  `${frameWords(located.frame)}.${located.hand.settled ? ` ${handWords(located.hand.by)}` : ''}`;

/** The centres, one a row. A ± of zero is one that the frame was chosen to make so. */
export const centresTable = (located: LocatedFace, speech: Speech): Block => ({
  kind: 'table',
  caption: null,
  columns: [
    { title: 'Feature', align: 'left' },
    { title: `X, ${speech.unit}`, align: 'point' },
    { title: `Y, ${speech.unit}`, align: 'point' },
    { title: `± at 95 %, ${speech.unit}`, align: 'point' },
  ],
  rows: [...located.features.values()].map((f) => [
    f.id,
    sayNearest(f.x, speech),
    sayNearest(f.y, speech),
    f.ellipse95.major === 0 ? 'exact' : sayNumber(f.ellipse95.major, { ...speech, fraction: null }),
  ]),
});

const readWords = {
  'two places': 'its sizes come from two sources that agree',
  'one source': 'its sizes come from one source: check them against the part',
  'from memory': 'its sizes are from memory: check them against the part',
} as const;

/** Whether anything was measured on a face beside what its standard says; true for a face that names none. */
export const isMeasured = (face: Face): boolean =>
  face.standard === null || face.readings.some((r) => !r.aside && !r.id.startsWith('standard '));

/**
 * What a face takes from its standard, and each diameter that was measured beside what the standard allows; nothing
 * where it names none.
 */
export const standardBlocks = (face: Face, speech: Speech): Report => {
  const s = face.standard;
  if (s === null) return [];
  const plain = { ...speech, fraction: null };
  const tests = againstStandard(face).map(({ feature, value, plusMinus, limits }) => {
    const agrees = value + plusMinus >= limits.least - 1e-9 && value - plusMinus <= limits.most + 1e-9;
    return `${feature}: measured ${sayMeasure(value, plusMinus, plain)}, the standard has ${sayLimits(limits, plain.unit)}: ${
      agrees ? 'they agree' : 'they do not agree'
    }.`;
  });
  const items = [...tests, ...s.disagree.map((d) => `Sources disagree: ${d}.`)];
  return [
    {
      kind: 'paragraph',
      text: `Taken from ${s.name} (${s.standard}); ${readWords[s.read]}. Each hole lies within ${say(s.place, plain)} of its place, and the register within its limits: these are the ± below.${
        isMeasured(face) ? '' : ' Nothing is measured on it yet: any reading you add tests it.'
      }`,
    },
    ...(items.length === 0 ? [] : [{ kind: 'list' as const, items }]),
  ];
};
