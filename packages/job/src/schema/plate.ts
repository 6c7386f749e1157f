import * as z from 'zod';
import { parsed, refused } from '@fayplate/core';
import { threadText } from './face.js';
import { leaf, section, text, whole, word, yes } from './leaf.js';
import { faceName, faceRef, featureName, namedBy } from './names.js';
import type { Values } from './values.js';

export const treatments = ['clearance', 'tapped', 'set stud'] as const;

const side = () =>
  leaf<'A' | 'B' | 'through'>(
    'one of: A, B, through',
    (t) => {
      const m = /^(?:side )?([AB])$|^(through)$/.exec(t);
      return m === null ? refused('one of: A, B, through') : parsed((m[1] ?? 'through') as 'A' | 'B' | 'through');
    },
    { description: 'The side it is cut from (A lies on the first face), or through.', type: ['string'], examples: ['through', 'A'] },
  );

const locate = (v: Values) =>
  section('how this face is made concentric, such as { register: 6.002, depth: 1/8 } or { dowels: [D1, D2] }', {
    register: v.sizeMeasure("Diameter on the face's centre: a spigot goes into a recess of the plate, a bore takes a raised spigot of it.").optional(),
    depth: v.size('How deep the recess is, or how high the spigot.').optional(),
    fit: leaf(
      'a tolerance class such as H7',
      (t) => (/^[a-z]{1,2}\d{1,2}$/i.test(t) ? parsed(t) : refused('a tolerance class such as H7')),
      { description: 'Tolerance class of the register, ISO 286.', type: ['string'], examples: ['H7', 'h6'] },
    ).optional(),
    dowels: z
      .union([whole(1, 12, { description: 'How many new dowels.', examples: [2] }), z.array(leaf('a feature', (t) => parsed(t), { description: "A dowel of the face." }), { error: 'a list of dowels' })])
      .meta({ description: "The face's own dowels by name, or the number of new ones, reamed at assembly." })
      .optional(),
    diameter: v.size('Diameter of new dowels.').optional(),
    second: word(['slot', 'round'], 'Whether the hole for the second dowel is a slot or round.').optional(),
  });

const fasten = (v: Values) =>
  section('how this face is fastened, such as { as: clearance, fit: normal } or { as: tapped, thread: M10 }', {
    as: word(treatments, 'clearance: the fastener passes through; tapped: bolts of the part go into the plate; set stud: a stud is set into the plate.'),
    fit: word(['close', 'normal', 'loose'], 'Size of clearance holes (ISO 273, ASME B18.2.8).').optional(),
    nut: word(['plain', 'counterbored', 'spotfaced'], 'A nut sits on the free side of the plate.').optional(),
    'cap screw': word(['plain', 'counterbored', 'spotfaced'], 'The head of a socket cap screw sits on the free side of the plate.').optional(),
    'countersunk screw': word(['countersunk'], 'The head of a countersunk screw is let into the free side of the plate.').optional(),
    washer: yes('A washer lies under the nut or head.').optional(),
    thread: threadText("Thread of the fastener; left out: each feature's own.").optional(),
    engagement: v.multiple('Least length of thread engaged, in diameters (d) or as a length.').optional(),
    blind: yes('Tapped from one side, not through.').optional(),
    except: namedBy(featureName, word(['none', ...treatments], 'Its own treatment, or none.'), 'features with their own treatment', 'Features treated differently.').optional(),
  });

const outline = (v: Values) =>
  z
    .union([
      word(['follow', 'round', 'rectangle'], 'Shape of the plate.'),
      section('an outline such as { shape: follow, margin: 12 mm }', {
        shape: word(['follow', 'round', 'rectangle', 'like'], 'follow runs round the holes, round is a disc, rectangle a bar; like copies the rim of a face.').optional(),
        like: faceRef('The face whose rim it copies.').optional(),
        margin: v.clear('Metal kept around the holes (around the rim for like).').optional(),
        diameter: v.size('Diameter of a round plate; left out: from the margin.').optional(),
        corner: v.clear('Radius of the corners.').optional(),
      }),
    ])
    .meta({ description: 'The outline of the plate.' });

const extra = (v: Values) =>
  section('holes such as { thread: M8, circle: 150 mm, clock: [2, 8] }', {
    thread: threadText('Their thread.'),
    circle: v.size("Diameter of their circle about the first face's centre."),
    clock: z
      .union([v.clock('Where it sits.'), z.array(v.clock('Where one sits.'), { error: 'a list of clock positions' })])
      .meta({ description: 'Where they sit on their circle.' }),
  });

export const plate = (v: Values) =>
  section(
    'the plate',
    {
      between: z
        .union([
          z.array(faceRef('A face.'), { error: 'two faces, such as [pump, motor]' }).length(2, { error: 'two faces, such as [pump, motor]' }),
          leaf('two faces, such as [pump, motor]', () => refused('two faces in brackets, such as [pump, motor]'), { description: 'Two faces.', type: ['string'] }),
        ])
        .meta({ description: "The two faces it joins. The first face's side is side A; everything is drawn looking at side B." }),
      material: text('a material such as aluminium', { description: 'What it is made of.', examples: ['aluminium', 'steel'] }, 60).optional(),
      clocking: z
        .union([v.angle("The second face's 12 o'clock, clockwise positive from the first's as drawn."), section('a range such as { search: -15 .. 15 deg }', { search: v.angleRange('Angles tried.') })])
        .meta({ description: "The second face's 12 o'clock, clockwise positive from the first's as drawn; or { search: least .. most }." })
        .optional(),
      thickness: leaf<'from stack' | number>(
        '"from stack" or a length',
        (t) => {
          if (/^from +stack$/i.test(t)) return parsed('from stack');
          const size = v.size('').safeParse(t);
          return size.success ? parsed(size.data) : refused(`"from stack" or ${size.error.issues[0]?.message ?? 'a length'}`);
        },
        { description: 'A length, or "from stack": what the axial chain leaves room for.', examples: ['from stack', '20 mm'] },
      ),
      bore: section('the central bore, such as { diameter: 4.250, side: through }', {
        diameter: v.size('Diameter of the central bore.'),
        side: side().optional(),
        depth: v.size('Depth where it is not through.').optional(),
      }).optional(),
      locate: namedBy(faceName, locate(v), 'a section by face', 'What makes the faces concentric, by face.').optional(),
      fasten: namedBy(faceName, fasten(v), 'a section by face', 'How each face is fastened; holds for every stud and hole that is not vacant.').optional(),
      outline: outline(v).optional(),
      limits: section('limits such as { web: 3 mm, edge: 1.5 d }', {
        web: v.clear('Least metal between cuts.').optional(),
        edge: v.multiple('Least distance from centre to edge, in hole diameters (d) or as a length.').optional(),
      }).optional(),
      drilling: v.band("± of one hole's place. Common practice: read-out ± 0.05 mm, paper and punch ± 0.5 mm (the default).").optional(),
      alignment: section('what the coupling bears, such as { offset: 0.1 mm, tilt: 0.1 deg }', {
        offset: v.size('Radial offset of the shafts that the coupling bears, from its maker.').optional(),
        tilt: v.bend('Tilt of the shafts that the coupling bears, from its maker.').optional(),
      }).optional(),
      parallel: v.band('± of the thickness over the face of the plate.').optional(),
      jacking: extra(v).meta({ description: 'Jacking-screw holes.' }).optional(),
      lifting: extra(v).meta({ description: 'Tapped holes for lifting.' }).optional(),
    },
    'The plate that joins two faces.',
  );
