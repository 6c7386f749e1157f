import { type LengthUnit, type Measure, type Parsed, parseAngle, parsed, refused } from '@fayplate/core';
import * as z from 'zod/mini';
import type { Toward } from '../types.js';
import { cut, extra, side } from './cut.js';
import { fasten, locate } from './fasten.js';
import { described, leaf, section, text, word } from './leaf.js';
import { faceName, faceRef, namedBy } from './names.js';
import type { Values } from './values.js';

const outline = (v: Values) =>
  described(
    z.union([
      word(['follow', 'round', 'rectangle'], 'Shape of the plate.'),
      section('an outline such as { shape: follow, margin: 12 mm }', {
        shape: z.optional(
          word(
            ['follow', 'round', 'rectangle', 'like'],
            'follow runs round the holes, round is a disc, rectangle a bar; like copies the rim of a face.',
          ),
        ),
        like: z.optional(faceRef('The face whose rim it copies.')),
        margin: z.optional(
          v.length('Metal kept around the holes; around the rim for like, where below zero lies inside it.'),
        ),
        diameter: z.optional(v.size('Diameter of a round plate; left out: from the margin.')),
        corner: z.optional(v.clear('Radius of the corners.')),
      }),
    ]),
    { description: 'The outline of the plate.' },
  );

/** `180 deg`, `P1`, either with a ± in degrees. */
const towardOf = (text: string): Parsed<Toward> => {
  const [way = '', band, ...more] = text.replace('+/-', '±').replace('+-', '±').split('±');
  const t = way.trim();
  if (t === '' || more.length > 0)
    return refused(
      "an angle clockwise from 12 o'clock such as 180 deg, or a feature of the first face, and one ± at most",
    );
  const within = band === undefined ? null : parseAngle(band);
  if (within?.ok === false) return refused(`after the ±, ${within.expected}`);
  if (within !== null && !(within.value > 0)) return refused('a ± above zero');
  const own = within === null ? {} : { within: within.value };
  if (/^\d{1,2}(?::\d\d)?$/.test(t) && (band === undefined || t.includes(':')))
    return refused(`an angle with its unit, such as 180 deg, or a feature: a clock position is too rough to bore by`);
  // With a ± a unit written once serves both.
  const isAngle = (band !== undefined && /^\d+$/.test(t)) || /\d ?(?:°|deg|degrees?|rad|['′"″])$/i.test(t);
  if (!isAngle) return parsed({ feature: t, ...own });
  const a = parseAngle(t);
  return a.ok ? parsed({ clockwise: a.value, ...own }) : a;
};

const shafts = (v: Values) =>
  section('two shafts apart, such as { apart: 52.3 mm ± 0.1 mm, toward: 180 deg ± 0.5 deg }', {
    apart: v.sizeMeasure('Between the axes of the two shafts, with the ± that the gear, chain or belt bears.'),
    toward: described(
      leaf<Toward>("an angle clockwise from 12 o'clock such as 180 deg, or a feature of the first face", towardOf, {
        description:
          "Where the second shaft lies from the first as drawn: an angle clockwise from 12 o'clock, or a feature " +
          'of the first face; with the ± that the drive bears of it.',
        type: ['string'],
        examples: ['180 deg', '180 deg ± 0.5 deg', 'P1', 'P1 ± 0.5 deg'],
      }),
      { description: 'Where the second shaft lies from the first, as drawn from side B.' },
    ),
  });

const pieces = (v: Values) =>
  section(
    'two pieces, such as { first: 14 mm, screws: { thread: M8, circle: 190 mm, clock: [1, 4, 7, 10] }, dowels: { ' +
      'diameter: 8 mm, circle: 190 mm, clock: [2, 8] } }',
    {
      first: v.size('Thickness of the piece that lies on the first face; the other has the rest of the thickness.'),
      names: z.optional(
        described(
          z
            .array(text('a name', { description: 'A name.' }, 20), { error: 'two names, such as [ring, plate]' })
            .check(z.length(2, { error: 'two names, such as [ring, plate]' })),
          { description: 'What the two are called; ring and plate where not said.' },
        ),
      ),
      screws: described(extra(v), {
        description: 'Screws that go through the second piece, their heads let in, into threads of the first.',
      }),
      dowels: described(
        section('dowels such as { diameter: 8 mm, circle: 190 mm, clock: [2, 8] }', {
          diameter: v.size('Their diameter.'),
          circle: v.size("Diameter of their circle about the first face's centre."),
          clock: described(z.array(v.clock('Where one sits.'), { error: 'a list of clock positions' }), {
            description: 'Where they sit on their circle.',
          }),
        }),
        { description: 'Dowels that hold the two to each other, two or more.' },
      ),
    },
    'A plate made of two pieces, screwed and dowelled together, where the patterns collide or the metal is too thin.',
  );

export const plate = (v: Values, unit: LengthUnit) =>
  section(
    'the plate',
    {
      between: described(
        z.union([
          z
            .array(faceRef('A face.'), { error: 'two faces, such as [pump, motor]' })
            .check(z.length(2, { error: 'two faces, such as [pump, motor]' })),
          leaf('two faces, such as [pump, motor]', () => refused('two faces in brackets, such as [pump, motor]'), {
            description: 'Two faces.',
            type: ['string'],
          }),
        ]),
        {
          description:
            "The two faces it joins. The first face's side is side A; everything is drawn looking at side B.",
        },
      ),
      material: z.optional(
        text(
          'a material such as aluminium',
          { description: 'What it is made of.', examples: ['aluminium', 'steel'] },
          60,
        ),
      ),
      clocking: z.optional(
        described(
          z.union([
            v.angle("The second face's 12 o'clock, clockwise positive from the first's as drawn."),
            section('a range such as { search: -15 .. 15 deg }', { search: v.angleRange('Angles tried.') }),
          ]),
          {
            description:
              "The second face's 12 o'clock, clockwise positive from " +
              "the first's as drawn; or { search: least .. most }.",
          },
        ),
      ),
      thickness: leaf<'from stack' | 'from old' | Measure>(
        '"from stack", "from old" or a length such as 20 or 20 ± 0.1',
        (t) => {
          if (/^from +stack$/i.test(t)) return parsed('from stack');
          if (/^from +old$/i.test(t)) return parsed('from old');
          const size = v.sizeMeasure('').safeParse(t);
          return size.success
            ? parsed(size.data)
            : refused(`"from stack", "from old" or ${size.error.issues[0]?.message ?? 'a length'}`);
        },
        {
          description:
            'A length, with a ± what the shop may leave of it; "from stack": what the axial chain leaves room for; ' +
            'or "from old": what the old plate was, for the new shaft.',
          examples: ['from stack', '20 mm', '20 ± 0.1 mm'],
        },
      ),
      bore: z.optional(
        described(
          z.union([
            section('the central bore, such as { diameter: 4.250, side: through }', {
              diameter: v.size('Diameter of the central bore.'),
              side: z.optional(side()),
              depth: z.optional(v.size('Depth where it is not through.')),
            }),
            word(['none'], 'Nothing passes the plate.'),
          ]),
          { description: "The bore about the shaft's axis; none: nothing passes the plate." },
        ),
      ),
      meet: z.optional(
        word(
          ['shafts', 'centres'],
          "What of the second face is laid over the first's: its shaft (the default), or its centre.",
        ),
      ),
      locate: z.optional(
        namedBy(faceName, locate(v), 'a section by face', 'What makes the faces concentric, by face.'),
      ),
      fasten: z.optional(
        namedBy(
          faceName,
          fasten(v),
          'a section by face',
          'How each face is fastened; holds for every stud and hole that is not vacant.',
        ),
      ),
      outline: z.optional(outline(v)),
      limits: z.optional(
        section('limits such as { web: 3 mm, edge: 1.5 d }', {
          web: z.optional(v.clear('Least metal between cuts.')),
          edge: z.optional(v.multiple('Least distance from centre to edge, in hole diameters (d) or as a length.')),
        }),
      ),
      drilling: z.optional(
        v.band("± of one hole's place. Common practice: read-out ± 0.05 mm, paper and punch ± 0.5 mm (the default)."),
      ),
      alignment: z.optional(
        section('what the coupling bears, such as { offset: 0.1 mm, tilt: 0.1 deg }', {
          offset: z.optional(v.size('Radial offset of the shafts that the coupling bears, from its maker.')),
          tilt: z.optional(v.bend('Tilt of the shafts that the coupling bears, from its maker.')),
        }),
      ),
      parallel: z.optional(v.band('± of the thickness over the face of the plate.')),
      'second setting': z.optional(
        v.band(
          "± of how the axis is picked up again for the plate's second side. Common practice: ± 0.02 mm by indicator.",
        ),
      ),
      jacking: z.optional(described(extra(v), { description: 'Jacking-screw holes.' })),
      shafts: z.optional(described(shafts(v), { description: 'Two shafts that are meant to be apart, not in line.' })),
      cuts: z.optional(
        namedBy(
          faceName,
          cut(v, unit),
          'a section of cuts by name',
          'Cuts that fasten nothing, by name: hole, slot, pocket or notch.',
        ),
      ),
      pieces: z.optional(pieces(v)),
      lifting: z.optional(described(extra(v), { description: 'Tapped holes for lifting.' })),
    },
    'The plate that joins two faces.',
  );
