import { type LengthUnit, type Parsed, parseLength, parsed, perUnit, refused, splitUnit } from '@fayplate/core';
import { parseDrill } from '@fayplate/handbook';
import * as z from 'zod/mini';
import type { Tool } from '../types.js';
import { threadText } from './face.js';
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

export const corner = (v: Values, description: string) =>
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
          { description: 'Name under which its measured scale was saved.', examples: ['workshop-laser'] },
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
      date: z.optional(text('a day', { description: 'The date to print on it.', examples: ['2031-05-02'] }, 40)),
      standard: z.optional(
        word(['ISO', 'ASME'], 'The drawing standard that it follows; left out: ISO in mm, ASME in inches.'),
      ),
      edges: z.optional(v.size('Most that edges are broken by; 0.5 mm where not said.')),
      surface: z.optional(
        text(
          'a roughness such as Ra 3.2',
          { description: 'The surface roughness asked for.', examples: ['Ra 3.2'] },
          30,
        ),
      ),
    },
    'The title block of the drawing for another shop.',
  );
