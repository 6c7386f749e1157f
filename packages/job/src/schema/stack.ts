import * as z from 'zod/mini';
import { described, section, text, whole, word } from './leaf.js';
import { faceName, faceRef, featureList, featureName, linkName, namedBy } from './names.js';
import { corner } from './shop.js';
import type { Values } from './values.js';

const onHand = (v: Values) =>
  described(z.array(v.size('A thickness.'), { error: 'a list of thicknesses' }), {
    description: 'Thicknesses of plate on hand.',
  });

const shims = (v: Values) =>
  section('shims such as { from: [0.1 mm, 0.25 mm], at most: 3 }', {
    from: described(
      z
        .array(v.size('A thickness of shim.'), { error: 'a list of thicknesses' })
        .check(z.minLength(1, { error: 'at least one thickness' })),
      {
        description: 'Thicknesses of shim on hand.',
      },
    ),
    'at most': z.optional(whole(0, 20, { description: 'Most shims in the pile; 3 where not said.', examples: [3] })),
  });

const link = (v: Values) =>
  z.union([
    v.linkMeasure('The length of this link with its ±.'),
    section('a link such as 61.2 ± 0.2 mm, or { find: 12 .. 30 mm }', {
      find: v.range('This link is what is looked for, between these lengths.'),
      made: z.optional(v.band('± of its own making.')),
      'on hand': z.optional(onHand(v)),
    }),
  ]);

const links = (v: Values) =>
  described(
    z.catchall(
      z.object({ shims: z.optional(shims(v)), 'on hand': z.optional(onHand(v)) }, { error: 'a section of links' }),
      link(v),
    ),
    {
      description: 'Lengths along the shaft by name, each with its ±; one of them { find: least .. most }.',
      propertyNames: { pattern: linkName.pattern },
    },
  );

export const stack = (v: Values) =>
  section(
    'the chain of lengths along the shaft',
    {
      links: links(v),
      limits: z.optional(
        namedBy(
          linkName,
          section('a limit such as { sum: reach - plate - gasket, least: 25 mm }', {
            sum: text(
              'links added and taken away, such as reach - plate - gasket',
              {
                description: 'Links added and taken away.',
                examples: ['reach - plate - gasket - mouth'],
                type: ['string'],
              },
              400,
            ),
            least: z.optional(v.length('The sum must be at least this.')),
            most: z.optional(v.length('The sum must be at most this.')),
          }),
          'a section of limits',
          'What the chain must leave, by name.',
        ),
      ),
      'on hand': z.optional(onHand(v)),
    },
    'The chain of lengths along the shaft, which decides the thickness.',
  );

export const gaskets = (v: Values) =>
  namedBy(
    faceName,
    section('a gasket such as { hole clearance: 1/32, bore: 6 1/8, outline: plate }', {
      'hole clearance': z.optional(v.clear("Added to each fastener's diameter; 1/32 in where not said.")),
      bore: z.optional(v.size('Diameter of its bore.')),
      open: z.optional(
        featureList('Ports, bosses and cuts that it leaves open as well, by the name of the feature or of the cut.'),
      ),
      outline: z.optional(
        described(
          z.union([
            word(['plate', 'follow'], "The plate's outline, or round the holes."),
            section('an outline such as { like: pump }', { like: faceRef('The face whose rim it copies.') }),
          ]),
          {
            description:
              "plate (the default where there is one): the plate's " +
              'outline; follow: round the holes; or { like: FACE }.',
          },
        ),
      ),
    }),
    'a section by face',
    'Gaskets, by the face that they lie on.',
  );

export const old = (v: Values) =>
  section(
    'the old plate, such as { thickness: 18.2 ± 0.05 mm, reach: { old: 61.2 mm, new: 58.4 mm, by: gauge } }',
    {
      thickness: v.linkMeasure('How thick the old plate is, with its ±.'),
      shims: z.optional(v.linkMeasure('What lay with it, all shims and gaskets together, with their ±.')),
      reach: z.optional(
        section(
          'the two reaches, such as { old: 61.2 mm, new: 58.4 mm, by: gauge }',
          {
            old: v.size('How far the old shaft stood out of its face.'),
            new: v.size('How far the new shaft stands out of its face, measured the same way.'),
            by: z.optional(
              text('the name of an instrument', { description: 'The instrument that both were measured with.' }, 40),
            ),
            each: z.optional(v.band('± of one of the two; left out: that of the instrument.')),
          },
          'Both shafts, from the face that the plate lies on to the end; left out: the new stands out as the old did.',
        ),
      ),
    },
    'The plate that worked before: the new one is as thick as it and its shims, and by as much more as the new ' +
      'shaft stands out further.',
  );

const gap = (v: Values) =>
  z.union([
    v.gap('The gap there, with or without its ±.'),
    section('a gap such as 0.42, or { gap: 0.42, at: [0, 85] }', {
      gap: v.gap('The gap there, with or without its ±.'),
      at: corner(v, 'Where, in the frame of the face as viewed: x, then y.'),
    }),
  ]);

export const trial = (v: Values) =>
  section(
    'a trial assembly, such as { on: motor, gaps: { M1: 0.42, M2: 0.40, M3: 0.61 }, by: feeler }',
    {
      on: faceRef('The part whose joint with the plate was tried.'),
      gaps: namedBy(
        featureName,
        gap(v),
        'gaps by the feature that they were taken at, such as { M1: 0.42, M2: 0.40, M3: 0.61 }',
        'The gaps taken, by the feature that each was taken at; any other name with its place.',
      ),
      by: z.optional(
        text('the name of an instrument', { description: 'The instrument that they were taken with.' }, 40),
      ),
      where: z.optional(
        word(
          ['joint', 'inside'],
          'joint (the default): open between plate and part, and shims fill it; inside: by clay between what must ' +
            'not touch, and shims open it.',
        ),
      ),
      leave: z.optional(v.clear('The gap that is to be left; 0 where not said.')),
      gasket: z.optional(
        v.linkMeasure(
          'The gasket as compressed, with its ±, where it is still to go in; left out: none, or it lay there.',
        ),
      ),
      shims: z.optional(shims(v)),
    },
    'Gaps taken when the parts were put together for a trial, with ' +
      'nothing drawn tight: they give the final shims at each bolt.',
  );
