import * as z from 'zod/mini';
import { parsed, refused } from '@fayplate/core';
import { described, leaf, section, text } from './leaf.js';
import { faceName, faceRef, featureList, namedBy } from './names.js';
import type { Values } from './values.js';

const operation = (v: Values) =>
  section('work on a part, such as { face: pump, shorten: [P1, P3], to: 18 mm }', {
    face: faceRef('The face of the part that is worked on.'),
    shorten: z.optional(
      featureList(
        'Studs or dowels that are cut back until they stand out by `to`; or shaft, which `to` is the reach of.',
      ),
    ),
    fit: z.optional(featureList('Studs in place of which longer ones are fitted, which stand out by `to`.')),
    open: z.optional(featureList('Holes that are opened out to the diameter `to`.')),
    deepen: z.optional(featureList('Tapped holes whose thread is taken `to` that depth.')),
    relieve: z.optional(
      featureList('Bosses, lips or spigots that are taken down until they stand out by `to`, or flush.'),
    ),
    to: described(
      z.union([
        leaf<'flush'>('flush', (t) => (/^flush$/i.test(t) ? parsed('flush') : { ok: false, expected: 'flush' }), {
          description: 'Level with the face.',
          type: ['string'],
        }),
        v.sizeMeasure(
          'The length, height, depth or diameter that it then has, with its ± where a link of the stack needs it.',
        ),
      ]),
      { description: 'What it then measures; flush: level with its face.' },
    ),
    link: z.optional(
      text('a link of the stack', { description: 'Of a shaft: the link of the stack that is its reach.' }, 40),
    ),
    done: z.optional(
      leaf<boolean>(
        'yes or no',
        (t) =>
          /^(?:yes|true)$/i.test(t) ? parsed(true) : /^(?:no|false)$/i.test(t) ? parsed(false) : refused('yes or no'),
        {
          description: 'Whether it is done; left out: still to do. The checks take it as done either way.',
          type: ['boolean', 'string'],
          examples: ['yes'],
        },
      ),
    ),
    why: z.optional(text('why it is done', { description: 'What it is for.' }, 80)),
  });

export const work = (v: Values) =>
  namedBy(
    faceName,
    operation(v),
    'a section of work by name',
    'Work on the parts themselves, by name: studs or a shaft to shorten, ' +
      'longer studs, holes to open or deepen, a lip to relieve.',
  );
