import { parsed } from '@fayplate/core';
import * as z from 'zod/mini';
import { readingKinds } from '../reading/grammar.js';
import { described, leaf, section } from './leaf.js';

/** A reading line, or one line under its own id. Its words are read by the reading language. */
const readingLine = z.union([
  leaf('a reading such as over P1 P3 = 4 1/8 by rule', (t) => parsed(t), {
    description:
      'KIND FEATURES [= VALUE] [± TOLERANCE] [by INSTRUMENT] [# note]; a line that starts with aside takes no part.',
    type: ['string'],
    pattern: `^\\s*(?:[aA]side\\s+)?(?:${readingKinds.map((k) => `[${k[0]}${k[0]?.toUpperCase()}]${k.slice(1)}`).join('|')})\\s`,
    examples: [
      'over P1 P3 = 4 1/8 by rule',
      'square P1-P7 P10-P4 by square',
      'touch bore = (-6.3411, 1.5134) by finder',
    ],
  }),
  described(
    z.record(
      z.string(),
      leaf('a reading such as over P1 P3 = 4 1/8 by rule', (t) => parsed(t), {
        description: 'A reading with its own id.',
        type: ['string'],
      }),
      {
        error: 'a reading, or its id and the reading: r7: over P1 P3 = 4 1/8 by rule',
      },
    ),
    { description: 'One reading under its own id.', minProperties: 1, maxProperties: 1 },
  ),
]);

export const readings = described(
  z.union([
    z.array(readingLine, { error: 'a list of readings' }),
    leaf('a list of readings, or the name of a CSV file', (t) => parsed(t), {
      description: 'Name of a CSV file beside the job.',
      type: ['string'],
      pattern: '\\.[cC][sS][vV]$',
    }),
  ]),
  {
    description:
      'Readings taken, in the reading language; or the name of a CSV file with the columns kind, features, value, ' +
      'plus_minus, instrument, note.',
  },
);

export const assembled = () =>
  section(
    'what a dial reads once the machine stands, such as { readings: ' +
      '[runout motor about pump = 0.12 mm high toward H1 by dial] }',
    { readings: z.optional(readings) },
    'Run-out of one shaft swept from the other, both turned ' +
      'together: the last rim reading and the last face reading count.',
  );
