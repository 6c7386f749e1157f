import { type Speech, say } from '@fayplate/core';
import { type Lettering, type Picture, circle, group, pens } from '@fayplate/drawing';
import { type StandardFace, classLimits, faceHoles, parseThread } from '@fayplate/handbook';
import { centreMark, featureShapes } from './feature.js';
import { labelShapes, shapeObstacles } from './labels.js';
import { scaleFor, sheet } from './sheet.js';

const plain = {
  diameter: null,
  diameterFrom: null,
  clock: null,
  vacant: false,
  stands: null,
  deep: null,
  lean: null,
  height: null,
} as const;

/** Radius that a hole shows, mm: of a tapped one the crests of its thread. */
const shown = ({ holes }: StandardFace): number => {
  const thread = holes.thread === null ? null : parseThread(holes.thread);
  return (thread === null ? (holes.size?.nominal ?? 4) : classLimits(thread).internal.least) / 2;
};

/** A standard face as seen from off the part, true scale: its register, bolt circle, holes by name and outside. */
export const standardPicture = (face: StandardFace, speech: Speech, lettering: Lettering): Picture => {
  const exact = { ...speech, fraction: null };
  const { holes, register } = face;
  const centre = { x: 0, y: 0 };
  const radius = shown(face);
  const spots = faceHoles(face);
  const reach = Math.max((face.outside ?? 0) / 2, holes.circle / 2 + 2 * radius);
  const scale = scaleFor([
    { x: -reach, y: -reach },
    { x: reach, y: reach },
  ]);
  const rims = [
    ...(face.outside === null ? [] : [circle('note', centre, face.outside / 2, pens.wide)]),
    ...(register === null
      ? []
      : featureShapes(
          { ...plain, id: register.kind, kind: register.kind, thread: null },
          centre,
          register.nominal / 2,
        )),
  ];
  const drilled = spots.flatMap((h) => [
    ...featureShapes({ ...plain, id: h.id, kind: 'hole', thread: holes.thread }, h.at, radius),
    ...centreMark(h.at, radius + scale.capital * 0.6),
  ]);
  const dowel =
    face.dowel === null ? [] : [circle('note', { x: 0, y: holes.circle / 2 }, face.dowel.nominal / 2, pens.narrow)];
  const labels = labelShapes(
    [
      ...spots.map((h) => ({ id: h.id, centre: h.at, radius, lines: [h.id] })),
      ...(face.dowel === null
        ? []
        : [{ id: 'D1', centre: { x: 0, y: holes.circle / 2 }, radius: face.dowel.nominal / 2, lines: ['D1'] }]),
      ...(register === null ? [] : [{ id: register.kind, centre, radius: 1.2, lines: [register.kind] }]),
    ],
    { solid: shapeObstacles(drilled), thin: shapeObstacles(rims) },
    scale,
    lettering,
  );
  const notes = [
    `${face.standard}. Seen from off the part, 12 o'clock up; the face may be turned as its holes allow.`,
    `${holes.count} ${holes.thread ?? `holes of ${say(holes.size?.nominal ?? 0, exact)}`} on ` +
      `${say(holes.circle, exact)}, each within ${say(holes.place, exact)} of its place.`,
    ...(register === null
      ? []
      : [
          `${register.kind === 'spigot' ? 'Spigot' : 'Bore'} ${say(register.least, exact)} to ` +
            `${say(register.most, exact)}${register.fit === null ? '' : ` (${register.fit})`}.`,
        ]),
    ...(face.outside === null ? [] : [`Outside ${say(face.outside, exact)}.`]),
    face.read === 'two places' ? 'Read in two places that agree.' : 'Check against the part.',
  ];
  return sheet(
    face.name,
    [
      group('outside', rims),
      group('bolt circle', [
        circle('note', centre, holes.circle / 2, pens.centre),
        ...centreMark(centre, scale.capital),
      ]),
      group('holes', [...drilled, ...dowel]),
      ...labels.shapes,
    ],
    notes,
    scale,
    1,
    lettering,
  );
};
