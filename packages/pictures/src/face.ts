import { type Point, type Speech, midpoint, say } from '@fayplate/core';
import {
  type Lettering,
  type Picture,
  type Shape,
  type Stroke,
  circle,
  ellipse,
  group,
  inGrey,
  pens,
} from '@fayplate/drawing';
import type { Face, Feature, Reading } from '@fayplate/job';
import type { Frame, LocatedFace, LocatedFeature } from '@fayplate/survey';
import { centreMark, featureShapes } from './feature.js';
import { type Label, crossable, labelShapes, shapeObstacles } from './labels.js';
import { type Ruling, readingLines } from './reading-lines.js';
import { enlargement, scaleFor, sheet } from './sheet.js';

/** How one looks at the face in its picture, in words. */
export const viewedWords = (face: Face): string =>
  face.viewed === 'from outside'
    ? 'Seen from outside, looking straight at the face'
    : face.viewed === 'from behind'
      ? 'Seen from behind, through the part'
      : face.viewed === 'off the old plate'
        ? 'The side of the old plate that lay on the part: its mirror image'
        : `Seen ${face.viewed}`;

/** Wider than any feature's line, so that the two are never taken for each other. */
const OVAL = { ...pens.wide, width: 0.4 };

/** A place where a feature would lie in another arrangement that the readings fit. */
const GHOST: Stroke = { ...pens.hair, dash: [1.5, 1] };

/** Which way is up, and from where distances run. */
const frameWords = (frame: Frame): string => {
  const from =
    'X and Y are measured from ' + (frame.origin === 'mean of centres' ? 'the mean of the centres' : frame.origin);
  if ('across' in frame) return `${from}; X runs along the line from ${frame.across[0]} to ${frame.across[1]}`;
  if ('up' in frame) return `${from}; ${frame.up} is straight up`;
  if (frame.direction === 'bench') return `${from}; up is the Y of the places that were read`;
  return typeof frame.direction === 'object'
    ? `${from}; ${frame.direction.up} is straight up`
    : `${from}; 12 o'clock is up`;
};

/** Located features with what the job says of them. */
export const placedFeatures = (face: Face, located: LocatedFace): readonly (readonly [Feature, LocatedFeature])[] =>
  face.features.flatMap((f) => {
    const at = located.features.get(f.id);
    return at === undefined ? [] : [[f, at] as const];
  });

/** Corners of the squares round every feature: what the drawing spans. */
export const extentOf = (placed: readonly (readonly [Feature, LocatedFeature])[]): readonly Point[] =>
  placed.flatMap(([, at]) => [-1, 1].map((s) => ({ x: at.x + s * (at.radius ?? 2), y: at.y + s * (at.radius ?? 2) })));

/** Round features that hold the others: named at their centre, since their rim is far from it. */
export const isLarge = (f: Feature): boolean => f.kind === 'bore' || f.kind === 'spigot' || f.kind === 'boss';

const suspectIds = (located: LocatedFace): readonly string[] =>
  located.suspects.flatMap((s) => [s.reading, ...s.tiedWith]);
const isOf = (reading: Reading, id: string): boolean => id === reading.id || id.startsWith(`${reading.id}.`);

/** Where a suspect reading is named: on the middle of what it spans. */
const middleOf = (reading: Reading, located: LocatedFace): Point | null => {
  const found = reading.features.flatMap((id) => located.features.get(id) ?? []);
  const [a, b] = reading.kind === 'angle' ? [found[0], found[2]] : found;
  return a === undefined ? null : midpoint(a, b ?? a);
};

/**
 * One face as viewed, true scale: features to size, 95 % ellipses enlarged by a stated factor, readings as thin
 * dimension lines, suspects as wide broken ones.
 */
export const facePicture = (face: Face, located: LocatedFace, speech: Speech, lettering: Lettering): Picture => {
  const placed = placedFeatures(face, located);
  const scale = scaleFor(extentOf(placed));
  const widest = Math.max(0, ...placed.map(([, at]) => at.ellipse95.major));
  const larger = enlargement(widest, 3.2 * scale.capital);
  const readings = face.readings.filter((r) => !r.aside);
  const ids = suspectIds(located);
  const wrong = readings.filter((r) => ids.some((id) => isOf(r, id)));
  const ruling: Ruling = {
    located: located.features,
    bench: located.bench,
    stroke: inGrey(pens.hair, 0.35),
    head: 0.7 * scale.capital,
  };
  const sound = readings.filter((r) => !wrong.includes(r)).flatMap((r) => readingLines(r, ruling));
  const suspect = wrong.flatMap((r) =>
    readingLines(r, { ...ruling, stroke: { width: 0.6, dash: [3, 1.5], grey: 0 }, head: 1.1 * scale.capital }),
  );
  const ellipses = placed.flatMap(([, at]) =>
    at.ellipse95.major === 0
      ? []
      : [
          ellipse(
            'note',
            at,
            { major: larger * at.ellipse95.major, minor: larger * at.ellipse95.minor, angle: at.ellipse95.angle },
            OVAL,
          ),
        ],
  );
  const named: readonly Label[] = placed.map(([f, at]) => ({
    id: f.id,
    centre: at,
    radius: isLarge(f) ? 1.2 : Math.max(at.radius ?? 2, larger * at.ellipse95.major),
    lines: [f.id, ...(f.vacant ? ['empty'] : [])],
  }));
  const doubts: readonly Label[] = wrong.flatMap((r) => {
    const centre = middleOf(r, located);
    return centre === null ? [] : [{ id: `reading ${r.id}`, centre, radius: 0.5, lines: [`reading ${r.id}`] }];
  });
  const ghosts = located.arrangements.rivals.flatMap((rival) =>
    placed.flatMap(([f, at]) => {
      const there = rival.places.get(f.id);
      return there === undefined || !rival.moved.includes(f.id) ? [] : [circle('note', there, at.radius ?? 2, GHOST)];
    }),
  );
  const elsewhere: readonly Label[] = located.arrangements.rivals.flatMap((rival) =>
    placed.flatMap(([f, at]) => {
      const there = rival.places.get(f.id);
      if (there === undefined || !rival.moved.includes(f.id)) return [];
      return [{ id: `${f.id} elsewhere`, centre: there, radius: at.radius ?? 2, lines: [`${f.id}?`] }];
    }),
  );
  const rims = placed.filter(([f]) => isLarge(f)).flatMap(([f, at]) => featureShapes(f, at, at.radius));
  const labels = labelShapes(
    [...named, ...elsewhere, ...doubts],
    { solid: [...shapeObstacles(suspect), ...crossable(shapeObstacles(rims))], thin: shapeObstacles(sound) },
    scale,
    lettering,
  );
  const shapes: readonly Shape[] = [
    group(
      'features',
      placed.flatMap(([f, at]) => [...featureShapes(f, at, at.radius), ...centreMark(at, scale.capital * 0.5)]),
    ),
    group('readings', sound),
    group('suspects', suspect),
    group('ellipses', ellipses),
    group('rivals', ghosts),
    ...labels.shapes,
  ];
  const touched = readings.some((r) => r.kind === 'touch' || r.kind === 'at') && located.bench !== null;
  const notes = [
    `${viewedWords(face)}. ${frameWords(located.frame)}.`,
    widest > 0
      ? `Wide ovals: where each centre lies 95 times in 100, drawn ${larger} times larger; the largest reaches ` +
        `${say(widest, { ...speech, fraction: null })}.`
      : 'Every centre shown is exact by choice of frame.',
    'Thin lines: the readings, with arrow heads where they were ' +
      'taken' +
      (touched ? '; small crosses: places read on the bench' : '') +
      '.' +
      (wrong.length > 0
        ? ` Wide broken lines: readings that do not agree with the rest (${wrong.map((r) => r.id).join(', ')}).`
        : ''),
    ...(ghosts.length > 0
      ? ['Broken circles with a question mark: where features lie in the other arrangement that the readings fit.']
      : []),
    ...(located.undetermined.length > 0
      ? [`Not shown, since the readings do not fix them: ${located.undetermined.join(', ')}.`]
      : []),
    ...(labels.unnamed.length > 0 ? [`No room to name in the drawing: ${labels.unnamed.join(', ')}.`] : []),
  ];
  return sheet(`${face.name}: as measured`, shapes, notes, scale, 1, lettering);
};
