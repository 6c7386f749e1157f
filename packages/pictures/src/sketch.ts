import { type Point, distance, polar } from '@fayplate/core';
import { type Lettering, type Picture, group } from '@fayplate/drawing';
import type { Face } from '@fayplate/job';
import type { LocatedFace, LocatedFeature } from '@fayplate/survey';
import { extentOf, isLarge, viewedWords } from './face.js';
import { centreMark, featureShapes } from './feature.js';
import { type Label, crossable, labelShapes, shapeObstacles } from './labels.js';
import { scaleFor, sheet } from './sheet.js';

/** Radius of what has no size yet, mm. */
const UNSIZED = { middle: 25, other: 5 } as const;
/** Angle between features that no clock places, radians: none lands on another soon. */
const APART = 2.4;

const at = (id: string, { x, y }: Point, radius: number): LocatedFeature => ({
  id,
  x,
  y,
  radius,
  radiusSigma: 0,
  covariance: [
    [0, 0],
    [0, 0],
  ],
  ellipse95: { major: 0, minor: 0, angle: 0 },
});

/**
 * About where every feature of a face lies, mm in its frame: as located where the readings fix it, else at its clock on
 * a circle as wide as what is known, about the middle. For drawing before there are readings, and for pointing.
 */
export const sketchPlaces = (face: Face, located: LocatedFace | null): ReadonlyMap<string, LocatedFeature> => {
  const fixed = located?.features ?? new Map<string, LocatedFeature>();
  const middle = fixed.get(face.centre ?? '') ?? { x: 0, y: 0 };
  const inner = face.features.find((f) => f.id === face.centre);
  const hub = (inner?.diameter?.value ?? (inner === undefined ? 0 : 2 * UNSIZED.middle)) / 2;
  const others = [...fixed.values()].filter((f) => f.id !== face.centre);
  const reach =
    others.length > 0
      ? others.reduce((sum, f) => sum + distance(f, middle), 0) / others.length
      : Math.max(60, 1.5 * hub, face.features.length * 6);
  return new Map(
    face.features.map((f, i) => {
      const known = fixed.get(f.id);
      const radius = f.diameter === null ? (isLarge(f) ? UNSIZED.middle : UNSIZED.other) : f.diameter.value / 2;
      // What is placed but has no size yet is drawn at about its size.
      if (known !== undefined) return [f.id, known.radius === null ? { ...known, radius } : known];
      if (f.id === face.centre || (isLarge(f) && f.clock === null)) return [f.id, at(f.id, middle, radius)];
      const off = polar(reach, f.clock ?? Math.PI / 2 - APART * i);
      return [f.id, at(f.id, { x: middle.x + off.x, y: middle.y + off.y }, radius)];
    }),
  );
};

/**
 * A face as one looks at it, before its readings fix it: features at about their places, named, with no claim to scale.
 */
export const sketchPicture = (
  face: Face,
  places: ReadonlyMap<string, LocatedFeature>,
  lettering: Lettering,
): Picture => {
  const placed = face.features.flatMap((f) => {
    const place = places.get(f.id);
    return place === undefined ? [] : [[f, place] as const];
  });
  const scale = scaleFor(extentOf(placed));
  const labels: readonly Label[] = placed.map(([f, p]) => ({
    id: f.id,
    centre: p,
    radius: isLarge(f) ? 1.2 : (p.radius ?? 2),
    lines: [f.id, ...(f.vacant ? ['empty'] : [])],
  }));
  const rims = placed.filter(([f]) => isLarge(f)).flatMap(([f, p]) => featureShapes(f, p, p.radius));
  const named = labelShapes(labels, { solid: crossable(shapeObstacles(rims)) }, scale, lettering);
  const shapes = [
    group(
      'features',
      placed.flatMap(([f, p]) => [...featureShapes(f, p, p.radius), ...centreMark(p, scale.capital * 0.5)]),
    ),
    ...named.shapes,
  ];
  const notes = [
    `${viewedWords(face)}. A sketch: what the readings do not fix yet stands at its clock.`,
    ...(named.unnamed.length === 0 ? [] : [`No room to name in the drawing: ${named.unnamed.join(', ')}.`]),
  ];
  return sheet(`${face.name}: sketch`, shapes, notes, scale, null, lettering);
};
