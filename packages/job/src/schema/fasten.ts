import { parsed, refused } from '@fayplate/core';
import * as z from 'zod/mini';
import { threadText } from './face.js';
import { described, leaf, section, whole, word, yes } from './leaf.js';
import { featureName, namedBy } from './names.js';
import type { Values } from './values.js';

const treatments = ['clearance', 'tapped', 'set stud'] as const;

export const locate = (v: Values) =>
  section('how this face is made concentric, such as { register: 6.002, depth: 1/8 } or { dowels: [D1, D2] }', {
    register: z.optional(
      v.sizeMeasure(
        "Diameter on the face's centre: a spigot goes into a recess of the plate, a bore takes a raised spigot of it.",
      ),
    ),
    depth: z.optional(v.size('How deep the recess is, or how high the spigot.')),
    fit: z.optional(
      leaf(
        'a tolerance class such as H7',
        (t) => (/^[a-z]{1,2}\d{1,2}$/i.test(t) ? parsed(t) : refused('a tolerance class such as H7')),
        { description: 'Tolerance class of the register, ISO 286.', type: ['string'], examples: ['H7', 'h6'] },
      ),
    ),
    dowels: z.optional(
      described(
        z.union([
          whole(1, 12, { description: 'How many new dowels.', examples: [2] }),
          z.array(
            leaf('a feature', (t) => parsed(t), { description: 'A dowel of the face.' }),
            { error: 'a list of dowels' },
          ),
        ]),
        {
          description:
            "The face's own dowels by name, or the number of new ones, " +
            'reamed at assembly; one of either beside a register.',
        },
      ),
    ),
    diameter: z.optional(v.size('Diameter of new dowels.')),
    set: z.optional(
      word(
        ['by indicator'],
        'The part is shifted until an indicator shows it true, then its new dowels are drilled and reamed; a ' +
          'register beside it is wide enough for that.',
      ),
    ),
    reading: z.optional(
      v.size('Full indicator movement to reach, twice the offset; left out: half of what the shafts may be off.'),
    ),
    second: z.optional(
      word(
        ['slot', 'round'],
        'Whether the hole for the second dowel, or for the one beside a register, is a slot or round.',
      ),
    ),
  });

export const fasten = (v: Values) =>
  section('how this face is fastened, such as { as: clearance, fit: normal } or { as: tapped, thread: M10 }', {
    as: word(
      treatments,
      'clearance: the fastener passes through; tapped: bolts of the part go into the plate; set stud: a stud is ' +
        'set into the plate.',
    ),
    fit: z.optional(word(['close', 'normal', 'loose'], 'Size of clearance holes (ISO 273, ASME B18.2.8).')),
    nut: z.optional(
      described(
        z.union([
          word(['plain', 'counterbored', 'spotfaced'], 'A nut sits on the free side of the plate.'),
          section('a nut of your own such as { across flats: 19 mm, height: 8 mm, sunk: counterbored }', {
            'across flats': v.size('Across its flats, as measured.'),
            height: v.size('Its height.'),
            sunk: z.optional(word(['plain', 'counterbored', 'spotfaced'], 'Whether it is let into the plate.')),
          }),
        ]),
        {
          description:
            'A nut sits on the free side of the plate; with its own sizes where it is not as the tables say.',
        },
      ),
    ),
    'cap screw': z.optional(
      described(
        z.union([
          word(
            ['plain', 'counterbored', 'spotfaced'],
            'The head of a socket cap screw sits on the free side of the plate.',
          ),
          section('a screw of your own such as { head: 16 mm, height: 10 mm, sunk: counterbored }', {
            head: v.size('Largest diameter of its head, as measured.'),
            height: v.size('Height of its head.'),
            sunk: z.optional(word(['plain', 'counterbored', 'spotfaced'], 'Whether it is let into the plate.')),
          }),
        ]),
        {
          description:
            'The head of a screw sits on the free side of the plate; with its own sizes where it has others.',
        },
      ),
    ),
    'countersunk screw': z.optional(
      word(['countersunk'], 'The head of a countersunk screw is let into the free side of the plate.'),
    ),
    washer: z.optional(yes('A washer lies under the nut or head; where not said, under nuts alone.')),
    thread: z.optional(threadText("Thread of the fastener; left out: each feature's own.")),
    engagement: z.optional(v.multiple('Least length of thread engaged, in diameters (d) or as a length.')),
    'wire insert': z.optional(
      v.multiple('Tapped for wire thread inserts this long, in diameters of the bolt (d) or as a length.'),
    ),
    set: z.optional(threadText('Of a stepped stud: the thread of the end that is set in the plate.')),
    blind: z.optional(yes('Tapped from one side, not through.')),
    except: z.optional(
      namedBy(
        featureName,
        word(['none', ...treatments], 'Its own treatment, or none.'),
        'features with their own treatment',
        'Features treated differently.',
      ),
    ),
  });
