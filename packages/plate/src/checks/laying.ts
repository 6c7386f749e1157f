import { type Point, type Requirement, cross, distance, say, sayAll, subtract } from '@fayplate/core';
import type { Face } from '@fayplate/job';
import type { Desk } from '../desk.js';
import type { Draft } from '../draft.js';
import { depthInside } from '../outline/inside.js';
import { footprintOf } from '../parts/footprint.js';
import { hasShaft } from './shaft.js';
import { unknown } from './unknown.js';

/** What of a face is its origin. */
const originOf = (face: Face): string => face.centre ?? face.across?.[0] ?? 'the middle of the features';

/** Where a shaft runs is stated, or it is not known: the origin of the coordinates alone is no axis. */
const axes = (draft: Draft): readonly Requirement[] => {
  const { desk } = draft;
  const bare = desk.faces.filter((_, i) => desk.mated[i]?.axis === null);
  if (bare.length === 0) return [];
  const [first, second] = desk.faces;
  const names = sayAll(bare.map((f) => f.name));
  const laid = `${originOf(first)} of ${first.name} was laid over ${originOf(second)} of ${second.name}`;
  const lost = bare.filter((f) => f.shaft !== null);
  if (lost.length > 0)
    return [
      unknown(
        'axis',
        `Where the shaft of ${sayAll(lost.map((f) => f.name))} runs is not known, as its readings do not fix ` +
          `${sayAll(lost.map((f) => f.shaft ?? ''))}: take the readings that \`locate\` proposes.`,
        'take the readings under “To measure next”',
      ),
    ];
  const turns =
    hasShaft(draft) ||
    desk.spec.alignment !== null ||
    (desk.spec.bore !== null && !desk.spec.nothingPasses) ||
    bare.length < desk.faces.length;
  return [
    unknown(
      turns ? 'axis' : 'origin',
      turns
        ? `Where the shaft of ${names} runs is not known, and ${laid}: write \`shaft\` or \`centre\` with the ` +
            'feature that it runs in.'
        : `${names} ${bare.length === 1 ? 'names' : 'name'} no centre: ${laid}. If that is not where the axes meet, ` +
            `give \`centre\`.`,
      turns
        ? 'say in which feature it runs'
        : `${laid}. If that is not where the axes meet, say which feature is the middle`,
    ),
  ];
};

/**
 * Nothing but rough clock positions says how a face's own frame lies to its holes: no feature, and no table that it was
 * read on.
 */
const turnsWithClocks = ({ benches }: Desk, face: Face): boolean =>
  face.up === null &&
  face.across === null &&
  ((benches.get(face.name) ?? null) === null || face.features.some((f) => f.clock !== null));

/**
 * What of the job is placed in the frame of a face, so that it is where it should be only if the frame is turned
 * rightly.
 */
const turnedWith = (draft: Draft, face: Face): readonly string[] => {
  const { spec, benches, faces } = draft.desk;
  const rim = (benches.get(face.name) ?? null) === null && face.rim.some((p) => 'at' in p || 'along' in p);
  const cuts = spec.cuts.filter(
    (c) =>
      c.face === face.name && ('feature' in c.at ? c.what === 'slot' && c.length > 0 : c.at.x !== 0 || c.at.y !== 0),
  );
  const toward = spec.shafts !== null && face === faces[0] && 'clockwise' in spec.shafts.toward;
  return [
    ...(rim ? [`the rim of ${face.name}`] : []),
    ...cuts.map((c) => `the cut ${c.name} on ${face.name}`),
    ...(toward ? [`the second shaft from ${face.name}`] : []),
  ];
};

/** Clock positions choose between arrangements that fit alike; they place nothing. */
const turns = (draft: Draft): readonly Requirement[] =>
  draft.desk.faces
    .filter((face) => turnsWithClocks(draft.desk, face))
    .flatMap((face) => {
      const placed = turnedWith(draft, face);
      const rim = placed[0]?.startsWith('the rim') === true;
      if (placed.length > 0)
        return [
          unknown(
            'turn',
            `How ${sayAll(placed)} ${placed.length === 1 ? 'is' : 'are'} turned to its holes is known from clock ` +
              `positions alone: write \`up\` or \`across\`${rim ? ', or touch rim and holes in one setting' : ''}.`,
            `say which feature is up, or which two lie level${rim ? ', or touch rim and holes in one setting' : ''}`,
          ),
        ];
      return face.features.some((f) => f.clock !== null)
        ? [
            unknown(
              'turn-chosen',
              `Which way up ${face.name} lies is taken from its clock ` +
                'positions: any angle will do, and this one is a choice.',
            ),
          ]
        : [];
    });

/** Features that the plate should fasten, locate or clear, and whose places the readings do not fix. */
const dropped = (draft: Draft): readonly Requirement[] =>
  draft.desk.faces.flatMap((face) => {
    const placed = new Set(draft.desk.placed.filter((p) => p.face === face).map((p) => p.feature.id));
    const except = draft.desk.spec.fasten.get(face.name)?.except;
    const lost = face.features.filter(
      (f) => !f.vacant && f.kind !== 'edge' && !placed.has(f.id) && except?.get(f.id) !== 'none',
    );
    return lost.length === 0
      ? []
      : [
          unknown(
            'not-on-plate',
            `Where ${sayAll(lost.map((f) => `${face.name}.${f.id}`))} ${lost.length === 1 ? 'lies is' : 'lie is'} ` +
              `not known, so the plate has nothing for ${lost.length === 1 ? 'it' : 'them'}: take the readings that ` +
              `\`locate\` proposes.`,
            'take the readings under “To measure next”',
          ),
        ];
  });

/** Radius of the circle through three points, mm; infinite where they lie in a line. */
const circleRadius = (a: Point, b: Point, c: Point): number => {
  const twice = Math.abs(cross(subtract(b, a), subtract(c, a)));
  return twice === 0 ? Infinity : (distance(a, b) * distance(b, c) * distance(c, a)) / (2 * twice);
};

/** How far an arc of that radius bulges over its chord, mm. */
const bulge = (radius: number, chord: number): number =>
  radius === Infinity ? 0 : radius - Math.sqrt(Math.max(0, radius * radius - (chord * chord) / 4));

/** A rim runs straight between the points that were touched; a round one lies outside its chords. */
const chords = (draft: Draft): readonly Requirement[] =>
  draft.desk.faces.flatMap((face) => {
    const n = face.rim.length;
    const at = (i: number): Point | null => {
      const p = face.rim[(i + n) % n];
      return p !== undefined && 'at' in p ? p.at : null;
    };
    const most = face.rim.reduce((worst, _, i) => {
      const [before, from, to, after] = [at(i - 1), at(i), at(i + 1), at(i + 2)];
      if (from === null || to === null) return worst;
      const chord = distance(from, to);
      const radii = [
        ...(before === null ? [] : [circleRadius(before, from, to)]),
        ...(after === null ? [] : [circleRadius(from, to, after)]),
      ];
      return Math.max(worst, ...radii.map((r) => bulge(r, chord)));
    }, 0);
    const { units } = draft.desk.job;
    return n < 3 || most < 0.01
      ? []
      : [
          unknown(
            'rim-chords',
            `The rim of ${face.name} is taken as straight between the points that were touched, and where it is ` +
              `round it lies up to ${say(most, { unit: units, fraction: null }, units === 'in' ? 2 : 1)} off: touch ` +
              'more points where that matters.',
          ),
        ];
  });

/**
 * A hole or a stud stands in its part's metal: one whose centre lies beyond the part's rim says that one of the two is
 * wrong.
 */
const outsideRim = ({ desk }: Draft): readonly Requirement[] =>
  ([0, 1] as const).flatMap((index) => {
    const { face, path, known } = footprintOf(desk, index);
    if (path === null || !known) return [];
    const out = desk.placed.flatMap((p) =>
      p.face.name === face && !p.feature.vacant && p.feature.kind !== 'edge' && depthInside(p.at, path) < 0
        ? [{ name: `${face}.${p.feature.id}`, by: -depthInside(p.at, path) }]
        : [],
    );
    if (out.length === 0) return [];
    const by = say(
      Math.max(...out.map((o) => o.by)),
      { unit: desk.job.units, fraction: null },
      desk.job.units === 'in' ? 2 : 1,
    );
    return [
      unknown(
        'rim-inside',
        `Whether the rim of ${face} is right is not known, as ${sayAll(out.map((o) => o.name))} ` +
          `${out.length === 1 ? 'lies' : 'lie'} up to ${by} outside it: measure the rim of ${face} again.`,
      ),
    ];
  });

/** What is not known of how the parts lie on each other. */
export const layingUnknowns = (draft: Draft): readonly Requirement[] => [
  ...dropped(draft),
  ...axes(draft),
  ...turns(draft),
  ...outsideRim(draft),
  ...chords(draft),
];
