import type { LengthUnit } from '@fayplate/core';
import * as z from 'zod/mini';
import { parseRim } from '../reading/rim.js';
import { described, leaf, section, text, whole, word, yes } from './leaf.js';
import { featureList, featureName, featureRef, namedBy } from './names.js';
import { places } from './places.js';
import { readings } from './reading.js';
import type { Values } from './values.js';

const featureKinds = ['hole', 'stud', 'dowel', 'bore', 'spigot', 'edge', 'boss'] as const;

export const threadText = (description: string) =>
  text(
    'a thread such as 3/8-16 UNC, M10 or M10x1.25',
    { description, examples: ['3/8-16 UNC', 'M10', '5/16 BSF', '2 BA'], type: ['string'] },
    40,
  );

const feature = (v: Values) =>
  section(
    'a feature such as { kind: stud, diameter: 0.371 ± 0.002, clock: 12 }',
    {
      kind: word(featureKinds, 'What it is. All but an edge are round.'),
      diameter: z.optional(
        v.sizeMeasure(
          'With a ± it is an observation, without one exact. Needed ' +
            'only where a reading or a later step uses the radius.',
        ),
      ),
      thread: z.optional(threadText('Thread of the stud or the tapped hole.')),
      clock: z.optional(
        v.clock(
          'Roughly where it sits about the centre, 12 up, clockwise as ' +
            'viewed. A start for the solution, never an observation.',
        ),
      ),
      vacant: z.optional(yes('A position with nothing in it, only shown.')),
      stands: z.optional(v.size('How far a stud stands out of its face.')),
      deep: z.optional(v.size('Depth of thread in a tapped hole.')),
      lean: z.optional(v.angleBand('How far off square a stud may be.')),
      height: z.optional(v.sizeMeasure('How far a boss stands out of its face.')),
    },
    'A feature of the face.',
  );

const statedCircle = (v: Values) => ({
  circle: z.optional(v.size('Diameter of the circle; left out: free.')),
  divisions: z.optional(
    whole(1, 360, { description: 'Equal divisions of the circle, vacant places counted.', examples: [12] }),
  ),
  about: z.optional(featureRef("Feature whose centre the circle is about; left out: the face's centre, else its own.")),
  phase: z.optional(v.phase("Clockwise from 12 o'clock to a division; left out: free.")),
  features: z.optional(featureList('Features on the circle; left out: every stud, hole and dowel that is not vacant.')),
});

const grid = (v: Values) =>
  described(
    z.union([
      v.size('Step of the grid that the centres lie on.'),
      section('a grid such as { step: 1/32, features: [A, B] }', {
        step: v.size('Step of the grid.'),
        features: z.optional(featureList('Features on the grid.')),
      }),
    ]),
    { description: 'Step of a grid that the centres lie on, or { step, features }.' },
  );

const layout = (v: Values) =>
  described(
    z.union([
      word(
        ['measured', 'intended'],
        'measured: as found (the default); intended: the layout that the maker most likely meant.',
      ),
      section('a layout such as { circle: 7 1/2, divisions: 12 }', {
        ...statedCircle(v),
        circles: z.optional(
          described(
            z.array(section('a circle such as { circle: 7 1/2, divisions: 12 }', statedCircle(v)), {
              error: 'a list of circles',
            }),
            { description: 'More circles, each with its own keys.' },
          ),
        ),
        grid: z.optional(grid(v)),
      }),
    ]),
    { description: 'Which positions the plate uses. Nothing is rounded to a nicer number unless this says so.' },
  );

const rim = (v: Values, unit: LengthUnit) =>
  described(
    z.array(
      z.union([
        leaf(
          'a piece such as (12.5, -40), round bore 236 mm across or arc (0, 50) (35, 35) (50, 0)',
          (t) => parseRim(t, unit),
          {
            description:
              'In order round the part: a corner (x, y); a lobe by its ' +
              'feature and radius, round S1 14 mm, or its diameter, ' +
              'round bore 236 mm across, which alone is a round part; arc or line with the places touched ' +
              'along it; or trace ± 0.2 mm with places of which the fewest lines and arcs are made; fillet 8 mm ' +
              'between two of these.',
            type: ['string'],
            examples: [
              '(12.5, -40)',
              'round S1 14 mm',
              'round bore 236 mm across',
              'arc (0, 50) (35, 35) (50, 0)',
              'trace ± 0.2 mm (0, 0) (40, 0) (40, 30) (0, 30)',
            ],
          },
        ),
        z.pipe(
          z.array(v.length('x, then y.'), { error: 'a pair [x, y]' }).check(z.length(2, { error: 'a pair [x, y]' })),
          z.transform(([x = 0, y = 0]) => ({ at: { x, y } })),
        ),
        section('a feature with its margin', {
          feature: featureRef('A feature of this face.'),
          margin: v.clear('Metal kept around it, from its edge.'),
        }),
      ]),
      {
        error:
          'a list of pieces in order round the part, such as [(0, 0), (80, 0), (80, 60)], or of a round part ' +
          '[round bore 236 mm across]',
      },
    ),
    { description: "Points of the part's outline, from which gasket and plate outlines can follow." },
  );

const shaft = (v: Values) =>
  described(
    z.union([
      featureRef('The feature on whose centre the shaft runs, where it is not the centre.'),
      section('a shaft such as { at: spigot, diameter: 24 mm, over key: 27 mm }', {
        at: z.optional(featureRef("The feature on whose centre it runs; left out: the face's centre.")),
        diameter: z.optional(v.size('Diameter of the shaft where it passes the plate.')),
        'over key': z.optional(v.size('Diameter over the shaft and its key, twice what the key stands from the axis.')),
        coupling: z.optional(v.size('Diameter of a coupling that passes the plate.')),
        nut: z.optional(v.size('Diameter of a nut or collar that passes the plate, over its corners.')),
      }),
    ]),
    { description: 'The feature on whose centre the shaft runs, or { at, diameter, over key, coupling, nut }.' },
  );

export const face = (v: Values, unit: LengthUnit) =>
  section(
    'a face: what it looks like and what was measured on it',
    {
      standard: z.optional(
        text(
          'the name of a standard face, such as IEC FF165',
          {
            description:
              'A published standard that the face is made to: gives its register (spigot or bore), its holes B1, ' +
              'B2 … clockwise from 12 and their ±. Readings may be added, and then test it.',
            examples: ['IEC FF165', 'NEMA 56C', 'SAE B 2-bolt', 'PN16 DN50', 'ISO 9409-1-50-4-M6'],
            type: ['string'],
          },
          60,
        ),
      ),
      seller: z.optional(
        v.band(
          'The part is not at hand, and its figures are a seller’s: ± of each length that states none of its own. ' +
            '`buy` then says with what odds a plate can exist.',
        ),
      ),
      viewed: z.optional(
        word(
          ['from outside', 'from behind', 'off the old plate'],
          'from outside (the default): looking straight at the face from off the part. off the old plate: on the ' +
            'side of the old plate that lay on the part, its mirror image.',
        ),
      ),
      centre: z.optional(
        described(
          z.union([
            featureRef('The feature whose centre is (0, 0).'),
            section('a centre that nothing marks, such as { circle: [S1, S2, S3] }', {
              circle: featureList(
                'Three features or more, whose circle has its centre at (0, 0); or the word layout: those of the ' +
                  'layout, at whose centre the shaft runs.',
              ),
            }),
          ]),
          { description: 'The feature whose centre is (0, 0); or, where nothing marks it, { circle: [S1, S2, S3] }.' },
        ),
      ),
      up: z.optional(featureRef("The feature that lies at 12 o'clock, on the +y axis.")),
      across: z.optional(featureList('Two features: the line from the first to the second runs along +x.')),
      alike: z.optional(
        featureList(
          'Features of one size, such as holes of one drill: three diameters read give those of all; more are not needed.',
        ),
      ),
      features: z.optional(
        namedBy(featureName, feature(v), 'a section of features', 'The features of the face by name.'),
      ),
      readings: z.optional(readings),
      layout: z.optional(layout(v)),
      flange: z.optional(v.sizeMeasure('Thickness of the flange.')),
      shaft: z.optional(shaft(v)),
      rim: z.optional(rim(v, unit)),
      places: z.optional(places(v, unit)),
    },
    'One side of the joint.',
  );
