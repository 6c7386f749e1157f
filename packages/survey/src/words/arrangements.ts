import { type Block, type Speech, say, sayAll, sayNearest, sayOdds } from '@fayplate/core';
import type { LocatedFace } from '../types.js';

/**
 * What hinders an answer: solids that would overlap, and other arrangements of the centres that fit as well; each the
 * end of a sentence.
 */
export const arrangementWords = ({
  arrangements: { overlaps, rivals, odds, searched },
}: LocatedFace): readonly string[] => [
  ...(overlaps.length === 0
    ? []
    : [
        `${sayAll(overlaps.map(([a, b]) => `${a} and ${b}`))} would overlap, which is impossible: a reading or a ` +
          'diameter is wrong',
      ]),
  ...(rivals.length === 0
    ? []
    : [
        `the readings fit ${rivals.length === 1 ? 'two arrangements' : `${rivals.length + 1} arrangements`} of the ` +
          `centres, and this one has odds of ${sayOdds(odds)}`,
      ]),
  ...(searched
    ? []
    : [
        'the search for the shape used up its steps, so that another may fit better: give every feature a clock, ' +
          'or take readings across',
      ]),
];

/**
 * What to take so that it is known which arrangement is meant, and what its value tells; null where there is only one,
 * or no reading tells.
 */
export const settleWords = ({ arrangements: { rivals, settle } }: LocatedFace, speech: Speech): string | null => {
  if (rivals.length === 0 || settle === null) return null;
  const exact = { ...speech, fraction: null };
  const there = rivals.map((_, i) => say(settle.there[i] ?? 0, exact));
  const by = settle.instrument === null ? '' : ` by ${settle.instrument}`;
  return (
    `Take ${settle.reading}${by} to settle it: ${say(settle.here, exact)} means the arrangement above, ` +
    `${sayAll(there)} ${rivals.length === 1 ? 'the other' : 'the others'}.`
  );
};

/**
 * Each other arrangement, by the features that lie elsewhere in it, and the one reading that settles which is meant;
 * nothing where there is one.
 */
export const arrangementBlocks = (located: LocatedFace, speech: Speech): readonly Block[] => {
  const { rivals } = located.arrangements;
  if (rivals.length === 0) return [];
  return [
    { kind: 'heading', level: 3, text: rivals.length === 1 ? 'The other arrangement' : 'The other arrangements' },
    ...rivals.map((rival): Block => ({
      kind: 'table',
      caption: `Odds ${sayOdds(rival.odds)}: these features lie elsewhere`,
      columns: [
        { title: 'Feature', align: 'left' },
        { title: `X, ${speech.unit}`, align: 'point' },
        { title: `Y, ${speech.unit}`, align: 'point' },
      ],
      rows: rival.moved.map((id) => {
        const at = rival.places.get(id) ?? { x: 0, y: 0 };
        return [id, sayNearest(at.x, speech), sayNearest(at.y, speech)];
      }),
    })),
    {
      kind: 'paragraph',
      text:
        settleWords(located, speech) ??
        'A clock position for each feature, or a reading across them, settles which one is right.',
    },
  ];
};
