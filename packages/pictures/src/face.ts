import type { Point, Speech } from '@fayplate/core';
import { formatLength } from '@fayplate/core';
import { type Drawing, type Lettering, type Obstacle, type Shape, ellipse, group, inGrey, pens } from '@fayplate/drawing';
import type { Face, Feature, Reading } from '@fayplate/job';
import type { LocatedFace, LocatedFeature } from '@fayplate/survey';
import { centreMark, featureShapes } from './feature.js';
import { type Label, labelShapes, lineObstacle } from './labels.js';
import { readingLines } from './reading-lines.js';
import { enlargement, scaleFor } from './scale.js';
import { sheet } from './sheet.js';

export const viewedWords = (face: Face): string =>
  face.viewed === 'from outside' ? 'Seen from outside, looking straight at the face' : face.viewed === 'from behind' ? 'Seen from behind, through the part' : `Seen ${face.viewed}`;

/** Located features with what the job says of them. */
export const placedFeatures = (face: Face, located: LocatedFace): readonly (readonly [Feature, LocatedFeature])[] =>
  face.features.flatMap((f) => {
    const at = located.features.get(f.id);
    return at === undefined ? [] : [[f, at] as const];
  });

/** Corners of the squares round every feature: what the drawing spans. */
export const extentOf = (placed: readonly (readonly [Feature, LocatedFeature])[]): readonly Point[] =>
  placed.flatMap(([, at]) => [-1, 1].map((s) => ({ x: at.x + s * (at.radius ?? 2), y: at.y + s * (at.radius ?? 2) })));

const isSuspect = (located: LocatedFace, reading: Reading): boolean =>
  located.suspects.some((s) => [s.reading, ...s.tiedWith].some((id) => id === reading.id || id.startsWith(`${reading.id}.`)));

const segmentsOf = (shapes: readonly Shape[]): readonly Obstacle[] =>
  shapes.flatMap((s) => {
    const [first] = s.kind === 'path' ? s.path.edges : [];
    return s.kind === 'path' && first?.kind === 'line' ? [lineObstacle(s.path.start, first.to)] : [];
  });

/** One face as viewed, true scale: features to size, 95 % ellipses enlarged by a stated factor, readings as hair lines, suspects as wide broken ones. */
export const facePicture = (face: Face, located: LocatedFace, speech: Speech, lettering: Lettering): Drawing => {
  const placed = placedFeatures(face, located);
  const extent = extentOf(placed);
  const scale = scaleFor(extent);
  const widest = Math.max(0, ...placed.map(([, at]) => at.ellipse95.major));
  const larger = enlargement(widest, 3.2 * scale.capital);
  const readings = face.readings.filter((r) => !r.aside);
  const sound = readings.filter((r) => !isSuspect(located, r)).flatMap((r) => readingLines(r, located.features, inGrey(pens.hair, 0.45)));
  const suspect = readings.filter((r) => isSuspect(located, r)).flatMap((r) => readingLines(r, located.features, { ...pens.cutLine, width: 0.6, dash: [3, 1.5] }));
  const ellipses = placed.map(([f, at]) =>
    ellipse('note', at, { major: larger * at.ellipse95.major, minor: larger * at.ellipse95.minor, angle: at.ellipse95.angle }, f.vacant ? pens.hair : pens.narrow),
  );
  const labels: readonly Label[] = placed.map(([f, at]) => {
    const small = f.kind !== 'bore' && f.kind !== 'spigot' && f.kind !== 'boss';
    return { id: f.id, centre: at, radius: small ? Math.max(at.radius ?? 2, larger * at.ellipse95.major) : 1, lines: [f.id, ...(f.vacant ? ['empty'] : [])] };
  });
  const named: readonly Label[] = readings
    .filter((r) => isSuspect(located, r))
    .flatMap((r) => {
      const [a, b] = r.features.map((id) => located.features.get(id));
      return a === undefined || b === undefined ? [] : [{ id: `reading ${r.id}`, centre: { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 }, radius: 0.6, lines: [`reading ${r.id}?`] }];
    });
  const lines = [...sound, ...suspect];
  const shapes: readonly Shape[] = [
    group('readings', sound),
    group('features', placed.flatMap(([f, at]) => [...featureShapes(f, at, at.radius), ...centreMark(at, scale.capital * 0.5)])),
    group('suspects', suspect),
    group('ellipses', ellipses),
    ...labelShapes([...labels, ...named], segmentsOf(lines), scale, lettering),
  ];
  const notes = [
    `${viewedWords(face)}.`,
    widest > 0 ? `95 % ellipses drawn ${larger} times larger; the widest reaches ${formatLength(widest, speech.unit, speech.unit === 'in' ? 4 : 3)} ${speech.unit} from its centre.` : 'Every centre shown is exact by choice of frame.',
    `Thin lines: the readings.${suspect.length > 0 ? ` Wide broken lines: suspect readings (${located.suspects.map((s) => s.reading).join(', ')}).` : ''}`,
    ...(located.undetermined.length > 0 ? [`Not shown, since the readings do not fix them: ${located.undetermined.join(', ')}.`] : []),
  ];
  return sheet(`${face.name}: as measured`, shapes, notes, scale, lettering);
};
