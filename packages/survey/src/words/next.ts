import { type Block, type Speech, sayNumber } from '@fayplate/core';
import type { LocatedFace, NextReading } from '../types.js';

type Gain = readonly [feature: string, radius: readonly [before: number | null, after: number]];

/** The feature that gains most: the one fixed at last, else the one whose radius falls furthest. */
const mainGain = ({ reduces }: NextReading): Gain | null => {
  const fall = ([, [was, is]]: Gain): number => (was === null ? Number.POSITIVE_INFINITY : was - is);
  return [...reduces].reduce<Gain | null>(
    (best, gain) => (best === null || fall(gain) > fall(best) ? gain : best),
    null,
  );
};

/** What to measure next, as a table in the order to take; a sentence where nothing would help much. */
export const nextBlocks = (located: LocatedFace, speech: Speech): readonly Block[] => {
  const loose = located.undetermined.length > 0;
  if (!located.stopped.converged) return [];
  if (located.next.length === 0) {
    return loose
      ? []
      : [
          {
            kind: 'paragraph',
            text: 'No single reading with the instruments of this job would improve the worst centre much.',
          },
        ];
  }
  const exact = { ...speech, fraction: null };
  return [
    { kind: 'heading', level: 3, text: 'To measure next' },
    {
      kind: 'table',
      caption: loose
        ? 'Take them in this order: some fix a feature only with the ones before them.'
        : 'Any one of these helps; the best comes first.',
      columns: [
        { title: 'Reading', align: 'left' },
        { title: 'By', align: 'left' },
        { title: 'Improves', align: 'left' },
        { title: `± now, ${speech.unit}`, align: 'point' },
        { title: `± then, ${speech.unit}`, align: 'point' },
      ],
      rows: located.next.map((n) => {
        const gain = mainGain(n);
        if (gain === null) return [n.reading, n.instrument ?? '', 'only with the one below', '', ''];
        const [id, [was, is]] = gain;
        const more = n.reduces.size - 1;
        return [
          n.reading,
          n.instrument ?? '',
          more > 0 ? `${id} and ${more} more` : id,
          was === null ? 'not fixed' : sayNumber(was, exact),
          sayNumber(is, exact),
        ];
      }),
    },
  ];
};
