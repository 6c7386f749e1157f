import * as z from 'zod/mini';
import { type LengthUnit, type Measure, parseLengthMeasure } from '@fayplate/core';
import { described, leaf, section } from './leaf.js';
import { faceName, namedBy } from './names.js';
import type { Values } from './values.js';

/** A length that may lie either side of zero, with or without its ±. */
const signed = (unit: LengthUnit, description: string) =>
  leaf<Measure>('a length such as 412 mm or -38 ± 0.5 mm', (t) => parseLengthMeasure(t, unit), {
    description,
    examples: ['412 ± 0.5 mm', '-38 mm'],
  });

const spot = (unit: LengthUnit) => ({
  x: z.optional(signed(unit, 'As viewed on its face; left out: 0.')),
  y: z.optional(signed(unit, 'As viewed on its face; left out: 0.')),
  behind: z.optional(signed(unit, 'How far behind the face it lies, on the part’s own side.')),
  ahead: z.optional(signed(unit, 'How far before the face it lies, on the side of the plate.')),
});

/** `places` of a face. */
export const places = (v: Values, unit: LengthUnit) =>
  namedBy(
    faceName,
    section('a place such as { x: 0, y: 38 mm, behind: 412 mm, each: ± 0.5 mm, old: { y: 38 mm, behind: 380 mm } }', {
      ...spot(unit),
      each: z.optional(v.band('± of every length here that has none of its own.')),
      by: z.optional(
        leaf('the name of an instrument', (t) => ({ ok: true, value: t }), {
          description: 'The instrument that these lengths were taken with.',
        }),
      ),
      old: z.optional(
        section(
          'the same place on the old part, such as { y: 38 mm, behind: 380 mm }',
          spot(unit),
          'The same place on the old part, viewed the same way as it stood, from its own shaft and its own face.',
        ),
      ),
    }),
    'a section of places such as { output: { behind: 412 mm, each: ± 0.5 mm } }',
    'What else is fastened to the part or reached from it: mounts, the output end, levers, pipes.',
  );

/** `moves` of a job: lengths from place to place. */
export const moves = (v: Values) =>
  namedBy(
    faceName,
    section('a length between two places, such as { between: [output, axle], least: 480 mm, most: 520 mm }', {
      between: described(
        z
          .array(
            leaf('the name of a place', (t) => ({ ok: true, value: t }), {
              description: 'A place of a face, or FACE.PLACE.',
            }),
            { error: 'two places, such as [output, axle]' },
          )
          .check(z.length(2, { error: 'two places, such as [output, axle]' })),
        { description: 'The two places that it joins.' },
      ),
      least: z.optional(v.size('The shortest that it may come to.')),
      most: z.optional(v.size('The longest that it may come to.')),
    }),
    'a section of lengths such as { drive shaft: { between: [output, axle] } }',
    'Shafts, rods, pipes and cables from place to place: how long each comes to be, and between what limits.',
  );
