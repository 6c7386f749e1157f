import { type Block, type Report, type Speech, formatDegrees, say, sayNumber } from '@fayplate/core';
import type { Face } from '@fayplate/job';
import type { FittedReading, LocatedFace } from '../types.js';

type Measures = 'length' | 'angle';

/**
 * A quantity in its own unit: a length as the person reads lengths (never as a fraction, whose step would hide it), an
 * angle in degrees.
 */
export const sayAmount = (value: number, measures: Measures, speech: Speech): string =>
  measures === 'angle' ? `${formatDegrees(value, 2)}°` : say(value, { ...speech, fraction: null });

const row = (r: FittedReading, speech: Speech): readonly string[] => {
  const plain = { ...speech, fraction: null };
  const amount = (v: number): string => (r.measures === 'angle' ? `${formatDegrees(v, 2)}°` : sayNumber(v, plain));
  return [
    r.id === r.text ? '' : r.id,
    // The figure stands in a column of its own.
    (r.text.split('=')[0] ?? '').trimEnd(),
    amount(r.value),
    amount(r.fitted),
    amount(r.residual),
    amount(2 * r.sigma),
    r.standardized === null ? '' : r.standardized.toFixed(2),
    `${Math.round(100 * r.redundancy)} %`,
  ];
};

/**
 * How every reading of one face fits: for whoever wants to see what the verdict rests on. Lengths in the unit of
 * `speech`, angles in degrees.
 */
export const fittedReport = (face: Face, located: LocatedFace, speech: Speech): Report => {
  if (located.readings.length === 0) return [];
  const table: Block = {
    kind: 'table',
    caption: `Every reading (lengths in ${speech.unit})`,
    columns: [
      { title: 'No.', align: 'left' },
      { title: 'Reading', align: 'left' },
      { title: 'Read', align: 'right' },
      { title: 'Fits at', align: 'right' },
      { title: 'Off by', align: 'right' },
      { title: '±', align: 'right' },
      { title: 'w', align: 'right' },
      { title: 'Checked', align: 'right' },
    ],
    rows: located.readings.map((r) => row(r, speech)),
  };
  return [
    { kind: 'heading', level: 3, text: `How the readings of ${face.name} fit` },
    table,
    {
      kind: 'paragraph',
      text:
        'Off by: the reading minus the best fit. w: the same in standard deviations; beyond 3.29 either way a ' +
        'reading is suspect. Checked: how much the other readings ' +
        'check this one; at 0 % nothing does, and w is left out.',
    },
  ];
};
