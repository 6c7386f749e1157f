import { type LengthUnit, type Point, parsed, refused } from '@fayplate/core';
import * as z from 'zod/mini';
import { parsePlace } from '../reading/point.js';
import { threadText } from './face.js';
import { described, leaf, section, text, word } from './leaf.js';
import { faceRef } from './names.js';
import type { Values } from './values.js';

export const side = () =>
  leaf<'A' | 'B' | 'through'>(
    'one of: A, B, through',
    (t) => {
      const m = /^(?:side )?([AB])$|^(through)$/.exec(t);
      return m === null ? refused('one of: A, B, through') : parsed((m[1] ?? 'through') as 'A' | 'B' | 'through');
    },
    {
      description: 'The side it is cut from (A lies on the first face), or through.',
      type: ['string'],
      examples: ['through', 'A'],
    },
  );

export const extra = (v: Values) =>
  section('holes such as { thread: M8, circle: 150 mm, clock: [2, 8] }', {
    thread: threadText('Their thread.'),
    circle: v.size("Diameter of their circle about the first face's centre."),
    clock: described(
      z.union([v.clock('Where it sits.'), z.array(v.clock('Where one sits.'), { error: 'a list of clock positions' })]),
      { description: 'Where they sit on their circle.' },
    ),
  });

export const cut = (v: Values, unit: LengthUnit) =>
  section(
    'a cut such as { hole: 8 mm, at: [12, -40], why: drain }',
    {
      hole: z.optional(v.size('Diameter of a drilled hole.')),
      slot: z.optional(v.size('Width of a slot.')),
      pocket: z.optional(
        described(
          z.union([
            v.size('Diameter of a round pocket.'),
            z
              .array(v.size('Its length along `angle`, then its width.'), { error: 'a size, or two such as [40, 25]' })
              .check(z.length(2, { error: 'two sizes, such as [40, 25]' })),
          ]),
          { description: 'A pocket with a flat floor: its diameter, or [length, width] with straight sides.' },
        ),
      ),
      notch: z.optional(v.size('Width of a notch: it opens at the edge and reaches half its width past its place.')),
      corner: z.optional(
        v.size(
          'Radius of the corners: of a pocket with straight sides, 3 mm where not said; of a notch, half its width.',
        ),
      ),
      length: z.optional(v.size('Of a slot, between the centres of its ends.')),
      angle: z.optional(
        v.angle(
          'Of a slot or pocket, counter-clockwise from +x of its face, 0 where not said; of a notch where it ' +
            'opens, else the nearest edge.',
        ),
      ),
      at: described(
        z.union([
          leaf<Point | { readonly feature: string }>(
            'a place such as [12, -40], or a feature',
            (t) => {
              if (!t.startsWith('('))
                return t === '' ? refused('a place such as [12, -40], or a feature') : parsed({ feature: t });
              const p = parsePlace(t, unit);
              return p.ok ? parsed(p.value.point) : p;
            },
            {
              description: 'A place as viewed on its face, or a feature of it.',
              type: ['string'],
              examples: ['(12, -40)'],
            },
          ),
          z.pipe(
            z.array(v.length('x, then y.'), { error: 'a pair [x, y]' }).check(z.length(2, { error: 'a pair [x, y]' })),
            z.transform(([x = 0, y = 0]) => ({ x, y })),
          ),
        ]),
        { description: 'Where it lies: a place as viewed on its face, or a feature of it.' },
      ),
      face: z.optional(faceRef('The face on which its place is given; the first where not said.')),
      depth: z.optional(v.size('Left out: through.')),
      side: z.optional(word(['A', 'B'], 'The side it is cut from; that of its face where not said.')),
      why: z.optional(text('why it is there', { description: 'What it is for, for the drawing and the table.' }, 80)),
    },
    'A cut that fastens nothing: a drain, a passage, room for what stands there.',
  );
