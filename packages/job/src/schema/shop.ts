import * as z from 'zod/mini';
import { type LengthUnit, type Parsed, parseLength, parsed, perUnit, refused, splitUnit } from '@fayplate/core';
import { parseDrill } from '@fayplate/handbook';
import type { Tool } from '../types.js';
import { threadText } from './face.js';
import { faceName, faceRef, featureList, featureName, linkName, namedBy } from './names.js';
import { described, leaf, section, text, whole, word } from './leaf.js';
import type { Values } from './values.js';

/** `F`, `#7`, `no 7`, `13/32`, `8.5 mm`; a whole number in a job in inches is a number drill. */
const tool =
  (unit: LengthUnit) =>
  (text: string): Parsed<Tool> => {
    const words = 'a size such as 13/32, 8.5 mm, F or "#7"';
    const bareNumber = unit === 'in' && /^\d{1,2}$/.test(text) && parseDrill(`#${text}`) !== null;
    const named =
      /^(?:#|no|number|letter|[a-z]$)/i.test(text) || bareNumber ? parseDrill(bareNumber ? `#${text}` : text) : null;
    if (named !== null) return parsed({ name: named.name, diameter: named.diameter });
    const size = parseLength(text, perUnit(unit));
    if (!size.ok) return refused(words);
    const unitless = splitUnit(text).factor === null && !text.includes('/');
    return size.value > 0
      ? parsed({ name: unitless ? `${text} ${unit}` : text, diameter: size.value })
      : refused('a size above zero');
  };

const tools = (unit: LengthUnit, description: string) =>
  described(
    z.array(
      leaf('a size such as 13/32, 8.5 mm, F or "#7"', tool(unit), {
        description: 'A size or the name of a drill.',
        examples: ['13/32', '8.5 mm', 'F', '#7'],
      }),
      {
        error: 'a list of sizes',
      },
    ),
    { description },
  );

type Sign = -1 | 0 | 1;
const backlash = (t: string): Parsed<{ readonly x: Sign; readonly y: Sign }> => {
  const words = 'how holes are approached, such as approach from -x -y';
  const m = /^(?:approach )?from ((?:[-+−][xy] ?){1,2})$/i.exec(t.trim());
  if (m === null) return refused(words);
  const signs: { x: Sign; y: Sign } = { x: 0, y: 0 };
  for (const [, sign = '', axis = ''] of (m[1] ?? '').matchAll(/([-+−])([xy])/gi)) {
    const a = axis.toLowerCase() as 'x' | 'y';
    if (signs[a] !== 0) return refused(words);
    signs[a] = sign === '+' ? 1 : -1;
  }
  return parsed(signs);
};

const corner = (v: Values, description: string) =>
  described(
    z.pipe(
      z.array(v.length('x, then y.'), { error: 'a pair [x, y]' }).check(z.length(2, { error: 'a pair [x, y]' })),
      z.transform(([x = 0, y = 0]) => ({ x, y })),
    ),
    { description },
  );

export const machine = (v: Values, unit: LengthUnit) =>
  section(
    'what the shop has',
    {
      step: z.optional(v.size('Smallest step that the machine can be set to.')),
      'top speed': z.optional(
        whole(1, 1_000_000, { description: 'Highest spindle speed, turns a minute.', examples: [2500] }),
      ),
      'screw pitch': z.optional(v.size('Travel for one turn of the handwheel.')),
      travel: z.optional(
        section('travel such as { x: 400 mm, y: 150 mm }', {
          x: v.size('How far the table travels along X.'),
          y: v.size('How far the table travels along Y.'),
        }),
      ),
      backlash: z.optional(
        leaf('how holes are approached, such as approach from -x -y', backlash, {
          description: 'The side from which every hole is approached, to take up the play of the screws.',
          type: ['string'],
          examples: ['approach from -x -y'],
        }),
      ),
      drills: z.optional(tools(unit, 'Drills on hand.')),
      punches: z.optional(tools(unit, 'Hole punches on hand, for gaskets.')),
      reamers: z.optional(tools(unit, 'Reamers on hand.')),
      'dividing head': z.optional(
        section('a dividing head such as { ratio: 40, circles: [15, 18, 20] }', {
          ratio: whole(1, 1000, { description: 'Turns of the crank for one of the spindle.', examples: [40] }),
          circles: described(
            z.array(whole(1, 1000, { description: 'Holes in one circle of a plate.' }), {
              error: 'a list of hole circles',
            }),
            { description: 'Hole circles of the plates at hand.' },
          ),
        }),
      ),
      taps: z.optional(
        described(z.array(threadText('A thread that it cuts.'), { error: 'a list of threads such as [M8, M10]' }), {
          description: 'Taps on hand, by their threads.',
        }),
      ),
      'rotary table': z.optional(v.bend('Smallest division of a rotary table that is read in degrees and minutes.')),
      vice: z.optional(
        section('a vice such as { opens: 120 mm, jaws: 150 mm }', {
          opens: v.size('How far its jaws open.'),
          jaws: z.optional(v.size('How wide its jaws are.')),
        }),
      ),
      'clamp width': z.optional(v.size('Width of the clamps over the toe; 24 mm where not said.')),
      tip: z.optional(v.size('Diameter of the edge finder.')),
      blank: z.optional(
        section('a blank such as { width: 250 mm, height: 200 mm }', {
          width: v.size('Along x.'),
          height: v.size('Along y.'),
          thickness: z.optional(v.size('As it is bought.')),
        }),
      ),
      allowance: z.optional(v.clear('Metal left round the outline until it is sawn; 3 mm a side where not said.')),
      'safe plane': z.optional(
        v.size('Height of rapid moves above the plate: over clamps and studs; 50 mm where not said.'),
      ),
      outline: z.optional(
        section('a cutter such as { cutter: 10 mm, tabs: 4 }', {
          cutter: v.size('Diameter of the end mill that cuts the outline; it is sawn where none is named.'),
          tabs: z.optional(
            whole(0, 24, { description: 'Bridges that hold the plate in its blank; 4 where not said.' }),
          ),
          leave: z.optional(v.clear('Left by roughing for the last pass; 0.3 mm where not said.')),
        }),
      ),
      room: z.optional(v.size('Most room between the spindle and the table.')),
      clamps: z.optional(
        described(
          z.array(
            section('a clamp such as { from: [0, 0], to: [40, 60] }', {
              from: corner(v, 'One corner.'),
              to: corner(v, 'The opposite corner.'),
            }),
            { error: 'a list of clamps' },
          ),
          { description: "Where clamps and jaws stand, measured from the blank's lower left corner." },
        ),
      ),
    },
    'What the shop has; every key is optional.',
  );

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

export const print = (v: Values) =>
  section(
    'how it is printed, such as { paper: A4, margin: 8 mm }',
    {
      paper: z.optional(
        text(
          'a paper size such as A4, Letter or 210 x 297 mm',
          { description: 'Paper in the printer.', examples: ['A4', 'Letter'] },
          60,
        ),
      ),
      margin: z.optional(v.clear('Edge of the sheet that the printer cannot reach.')),
      overlap: z.optional(v.clear('How far sheets overlap.')),
      printer: z.optional(
        text(
          'the name of a printer',
          { description: 'Name under which its measured scale was kept.', examples: ['workshop-laser'] },
          60,
        ),
      ),
    },
    'How it is printed; command-line options win.',
  );

export const drawing = (v: Values) =>
  section(
    'what the workshop drawing says, such as { number: HL-104, revision: B, standard: ISO }',
    {
      number: z.optional(text('a drawing number', { description: 'Number of the drawing.', examples: ['HL-104'] }, 40)),
      revision: z.optional(text('a revision', { description: 'Its revision.', examples: ['B'] }, 20)),
      by: z.optional(text('a name', { description: 'Who drew it.', examples: ['R. Pell'] }, 40)),
      date: z.optional(
        text('a day', { description: 'The day, as it is to stand on it.', examples: ['2031-05-02'] }, 40),
      ),
      standard: z.optional(
        word(['ISO', 'ASME'], 'Whose drawing habits it follows; left out: ISO in mm, ASME in inches.'),
      ),
      edges: z.optional(v.size('Most that edges are broken by; 0.5 mm where not said.')),
      surface: z.optional(
        text('a roughness such as Ra 3.2', { description: 'Surface that is asked for.', examples: ['Ra 3.2'] }, 30),
      ),
    },
    'What the drawing for another shop says of itself.',
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
