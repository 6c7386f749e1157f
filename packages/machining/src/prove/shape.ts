import {
  type Point,
  apply,
  centroid,
  cross,
  distance,
  flipX,
  heading,
  identity,
  register,
  subtract,
  wrapAngle,
} from '@fayplate/core';
import type { Face, Job } from '@fayplate/job';
import { type Plate, movePattern } from '@fayplate/plate';
import { type LocatedFace, type Pattern, locateFace, patternOf } from '@fayplate/survey';
import { placesOf } from '../checks/places.js';
import { renumbering } from './renumber.js';
import { drilledSurvey } from './survey.js';

/** What tells the plate from its mirror image. */
export interface Hand {
  readonly settled: boolean;
  readonly by: 'places' | 'clocks' | null;
}

/** The drilled plate's shape, seen from side B, in a frame of its own. */
export interface Shape {
  readonly located: LocatedFace;
  readonly pattern: Pattern;
  readonly hand: Hand;
}

/** Holes drilled this far from their places, mm, are so by a mistake of whole turns, not by drilling. */
const ASTRAY = 3;

/**
 * How many holes lie astray of the design, the shape laid on it as well as can be, in the mirror where that fits
 * better.
 */
const astray = (located: LocatedFace, places: ReadonlyMap<string, Point>): number => {
  const ids = [...located.features.keys()].filter((id) => places.has(id));
  const found = ids.map((id) => located.features.get(id) as Point);
  const count = (wanted: readonly Point[]): number => {
    const laid = register(wanted, found);
    return wanted.filter((p, i) => distance(apply(laid, p), found[i] as Point) > ASTRAY).length;
  };
  const wanted = ids.map((id) => places.get(id) as Point);
  return Math.min(count(wanted), count(wanted.map((p) => apply(flipX, p))));
};

const isRenumbered = (located: LocatedFace, plate: Plate): boolean => {
  const ids = [...located.features.keys()];
  return (
    renumbering(
      ids,
      ids.map((id) => located.features.get(id) as Point),
      plate,
      true,
    ) !== null
  );
};

/**
 * Shape of the drilled plate from its own readings. It is looked for where the holes should be and where each of the
 * likely mistakes puts them, before it is looked for again: readings that fold into some other shape can swallow a
 * misread one. Such a shape is believed only where it has fewer holes astray than the drawing's has readings that do
 * not fit, or is the drawing's under other names.
 */
export const drilledShape = (
  drilled: Face,
  plate: Plate,
  job: Job,
  mistaken: readonly ReadonlyMap<string, Point>[],
): Shape => {
  const view = drilled.viewed === 'from side A' ? flipX : identity;
  const designed = new Map([...placesOf(plate)].map(([id, p]) => [id, { x: p.x, y: p.y }]));
  const seen = (places: ReadonlyMap<string, Point>): ReadonlyMap<string, Point> =>
    new Map([...places].map(([id, p]) => [id, apply(view, p)]));
  const surveyAt = (places: ReadonlyMap<string, Point>) => drilledSurvey(drilled, plate, job, seen(places));
  const near = (places: ReadonlyMap<string, Point>): LocatedFace =>
    locateFace(surveyAt(places), { next: false, places: seen(places) });
  const better = (now: LocatedFace, other: LocatedFace): boolean =>
    other.stopped.converged && (!now.stopped.converged || other.fit.chi2 < now.fit.chi2 - 1e-6);
  let located = near(designed);
  for (const places of fits(located) ? [] : mistaken) {
    const other = near(places);
    if (better(located, other)) located = other;
    if (fits(located)) break;
  }
  if (!fits(located)) {
    const other = locateFace(surveyAt(designed), { next: false });
    const believed = (): boolean =>
      !located.stopped.converged ||
      astray(other, seen(designed)) <= located.suspects.length ||
      isRenumbered(other, plate);
    if (better(located, other) && believed()) located = other;
  }
  const ids = drilled.features.map((f) => f.id).filter((id) => located.features.has(id));
  const { mirrored, ...hand } = handOf(drilled, located, ids);
  const turned = mirrored ? flipX : identity;
  return {
    located,
    hand,
    pattern: movePattern(view.mirrored === turned.mirrored ? identity : flipX, patternOf(located, ids)),
  };
};

const fits = (l: LocatedFace): boolean => l.stopped.converged && (l.fit.p === null || l.fit.p > 0.01);

/**
 * Three places in one bench frame carry a hand, and so do the clocks of three holes; distances and angles read the same
 * on the mirror image.
 */
const handOf = (drilled: Face, located: LocatedFace, ids: readonly string[]): Hand & { readonly mirrored: boolean } => {
  const benched = [
    ...new Set(
      drilled.readings
        .filter((r) => (r.kind === 'at' || r.kind === 'touch') && !r.aside)
        .map((r) => r.features[0] ?? ''),
    ),
  ];
  const places = benched.flatMap((id) => located.features.get(id) ?? []);
  if (spread(places)) return { settled: true, by: 'places', mirrored: false };
  const clocked = drilled.features.filter((f) => f.clock !== null && ids.includes(f.id));
  const points = clocked.flatMap((f) => located.features.get(f.id) ?? []);
  const middle = centroid(ids.flatMap((id) => located.features.get(id) ?? []));
  const clocks = clocked.map((f) => f.clock ?? 0);
  const [straight, mirrored] = [misfit(points, middle, clocks, 1), misfit(points, middle, clocks, -1)];
  // Clocks are read to the hour or so: 15° off each on one hand, and plainly worse on the other.
  const settled =
    clocked.length >= 3 &&
    Math.min(straight, mirrored) < 0.35 &&
    Math.max(straight, mirrored) > 2 * Math.min(straight, mirrored) + 0.2;
  return { settled, by: settled ? 'clocks' : null, mirrored: settled && mirrored < straight };
};

const spread = (places: readonly Point[]): boolean => {
  const [a] = places;
  if (a === undefined) return false;
  const far = places.reduce(
    (best, p) => (Math.hypot(p.x - a.x, p.y - a.y) > Math.hypot(best.x - a.x, best.y - a.y) ? p : best),
    a,
  );
  const along = subtract(far, a);
  const length = Math.hypot(along.x, along.y);
  return length > 0 && places.some((p) => Math.abs(cross(along, subtract(p, a))) > 0.02 * length * length);
};

/** Greatest difference between clocks and directions about the middle, radians, the whole turned to agree best. */
const misfit = (points: readonly Point[], middle: Point, clocks: readonly number[], side: 1 | -1): number => {
  const offs = points.map((p, i) => side * heading(subtract(p, middle)) - (clocks[i] ?? 0));
  let turn = Math.atan2(
    offs.reduce((s, o) => s + Math.sin(o), 0),
    offs.reduce((s, o) => s + Math.cos(o), 0),
  );
  for (let pass = 0; pass < 5; pass++)
    turn += offs.reduce((s, o) => s + wrapAngle(o - turn), 0) / Math.max(1, offs.length);
  return Math.max(0, ...offs.map((o) => Math.abs(wrapAngle(o - turn))));
};
