import * as z from 'zod/mini';
import { parsed, refused } from '@fayplate/core';
import { isFingerprint } from '../fingerprint.js';
import { readings } from './reading.js';
import { leaf, section, word } from './leaf.js';
import { faceName, featureList, featureName, featureRef, namedBy } from './names.js';
import type { Values } from './values.js';

/** What a plate, or one piece of it, measures. */
const measured = (v: Values) => ({
  viewed: z.optional(
    word(
      ['from side A', 'from side B'],
      'The side that you look at when you read clocks and places; side A lies on the first face.',
    ),
  ),
  centre: z.optional(featureRef('A hole of the plate whose centre is (0, 0).')),
  up: z.optional(featureRef("A hole at 12 o'clock.")),
  across: z.optional(featureList('Two holes along +x.')),
  clocks: z.optional(
    namedBy(
      featureName,
      v.clock(
        'Roughly where the hole is seen, 12 up, clockwise, from the side that `viewed` names: tells a plate from ' +
          'its mirror image.',
      ),
      'a section of holes and clocks such as { H1: 12, H2: 2 }',
      'Where the holes are seen on the finished plate.',
    ),
  ),
  from: z.optional(
    leaf<string>(
      'a fingerprint such as 7K2Q-F9M3',
      (t) => (isFingerprint(t.toUpperCase()) ? parsed(t.toUpperCase()) : refused('a fingerprint such as 7K2Q-F9M3')),
      {
        description:
          'The fingerprint on the sheets that it was drilled by: ' +
          'where the job means something else by now, that is said.',
        examples: ['7K2Q-F9M3'],
        type: ['string'],
      },
    ),
  ),
  'so far': z.optional(
    featureList(
      'The holes and bores that are drilled up to now; left out: all of them. `prove` then tells how to go on, and ' +
        'what can be done where one went wrong.',
    ),
  ),
  readings: z.optional(readings),
  thickness: z.optional(v.sizeMeasure('How thick the finished plate is.')),
  depths: z.optional(
    namedBy(
      featureName,
      v.size('How deep the recess is, or how high the raised spigot.'),
      'a section of bores and depths such as { C2: 4.0 }',
      'How deep recesses are, and how high raised spigots, by their names on the drawing.',
    ),
  ),
  outline: z.optional(
    section(
      'a section such as { width: 180 mm, height: 140 mm } or { diameter: 180 mm }',
      {
        width: z.optional(v.size('How wide the plate is over all, as drawn.')),
        height: z.optional(v.size('How high it is over all, as drawn.')),
        diameter: z.optional(v.size('Diameter of a round plate.')),
      },
      'How large the finished plate is over all.',
    ),
  ),
  slots: z.optional(
    namedBy(
      featureName,
      section('a section such as { width: 8.02 mm, length: 3 mm }', {
        width: z.optional(v.size('How wide the slot is.')),
        length: z.optional(v.size('Between the centres of its ends: its whole length less its width.')),
      }),
      'a section of slots such as { H3: { width: 8.02 mm, length: 3 mm } }',
      'How wide and how long slots are, by their names on the drawing.',
    ),
  ),
});

/** What the finished plate measures, or each piece of a plate of two. */
export const drilled = (v: Values) =>
  section(
    'what the finished plate measures',
    {
      ...measured(v),
      pieces: z.optional(
        namedBy(
          faceName,
          section('what the finished piece measures', measured(v), 'What one piece measures.'),
          'the pieces by their names, such as { ring: { readings: [over H1 H2 = 120.4 mm ± 0.05 mm] } }',
          'Of a plate of two pieces, what each measures, by the names of `plate.pieces`; one that is not drilled ' +
            'yet is left out.',
        ),
      ),
    },
    'What the finished plate measures, in the same reading language; its holes are H1, H2 …, its bores and ' +
      'registers C1, C2 …, or each by the feature that it is for',
  );
