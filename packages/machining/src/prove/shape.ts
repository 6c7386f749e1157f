import { type Point, apply, centroid, cross, flipX, heading, identity, subtract, wrapAngle } from '@fayplate/core';
import type { Face, Job } from '@fayplate/job';
import { type Plate, movePattern } from '@fayplate/plate';
import { type LocatedFace, type Pattern, locateFace, patternOf } from '@fayplate/survey';
import { placesOf } from '../checks/places.js';
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

/** Shape of the drilled plate from its own readings; looked for first as designed, then as each of the mistaken layouts, the best fit kept. */
export const drilledShape = (drilled: Face, plate: Plate, job: Job, mistaken: readonly ReadonlyMap<string, Point>[]): Shape => {
  const view = drilled.viewed === 'from side A' ? flipX : identity;
  const designed = new Map([...placesOf(plate)].map(([id, p]) => [id, { x: p.x, y: p.y }]));
  const seen = (places: ReadonlyMap<string, Point>): ReadonlyMap<string, Point> => new Map([...places].map(([id, p]) => [id, apply(view, p)]));
  const locate = (places: ReadonlyMap<string, Point>): LocatedFace => locateFace(drilledSurvey(drilled, plate, job, seen(places)), { next: false });
  let located = locate(designed);
  for (const places of fits(located) ? [] : mistaken) {
    const other = locate(places);
    if (other.stopped.converged && (!located.stopped.converged || other.fit.chi2 < located.fit.chi2 - 1e-6)) located = other;
    if (fits(located)) break;
  }
  const ids = drilled.features.map((f) => f.id).filter((id) => located.features.has(id));
  const { mirrored, ...hand } = handOf(drilled, located, ids);
  const turned = mirrored ? flipX : identity;
  return { located, hand, pattern: movePattern(view.mirrored === turned.mirrored ? identity : flipX, patternOf(located, ids)) };
};

const fits = (l: LocatedFace): boolean => l.stopped.converged && (l.fit.p === null || l.fit.p > 0.01);

/** Three places in one bench frame carry a hand, and so do the clocks of three holes; distances and angles read the same on the mirror image. */
const handOf = (drilled: Face, located: LocatedFace, ids: readonly string[]): Hand & { readonly mirrored: boolean } => {
  const benched = [...new Set(drilled.readings.filter((r) => (r.kind === 'at' || r.kind === 'touch') && !r.aside).map((r) => r.features[0] ?? ''))];
  const places = benched.flatMap((id) => located.features.get(id) ?? []);
  if (spread(places)) return { settled: true, by: 'places', mirrored: false };
  const clocked = drilled.features.filter((f) => f.clock !== null && ids.includes(f.id));
  const points = clocked.flatMap((f) => located.features.get(f.id) ?? []);
  const middle = centroid(ids.flatMap((id) => located.features.get(id) ?? []));
  const clocks = clocked.map((f) => f.clock ?? 0);
  const [straight, mirrored] = [misfit(points, middle, clocks, 1), misfit(points, middle, clocks, -1)];
  // Clocks are read to the hour or so: 15° off each on one hand, and plainly worse on the other.
  const settled = clocked.length >= 3 && Math.min(straight, mirrored) < 0.35 && Math.max(straight, mirrored) > 2 * Math.min(straight, mirrored) + 0.2;
  return { settled, by: settled ? 'clocks' : null, mirrored: settled && mirrored < straight };
};

const spread = (places: readonly Point[]): boolean => {
  const [a] = places;
  if (a === undefined) return false;
  const far = places.reduce((best, p) => (Math.hypot(p.x - a.x, p.y - a.y) > Math.hypot(best.x - a.x, best.y - a.y) ? p : best), a);
  const along = subtract(far, a);
  const length = Math.hypot(along.x, along.y);
  return length > 0 && places.some((p) => Math.abs(cross(along, subtract(p, a))) > 0.02 * length * length);
};

/** Greatest difference between clocks and directions about the middle, radians, the whole turned to agree best. */
const misfit = (points: readonly Point[], middle: Point, clocks: readonly number[], side: 1 | -1): number => {
  const offs = points.map((p, i) => side * heading(subtract(p, middle)) - (clocks[i] ?? 0));
  let turn = Math.atan2(offs.reduce((s, o) => s + Math.sin(o), 0), offs.reduce((s, o) => s + Math.cos(o), 0));
  for (let pass = 0; pass < 5; pass++) turn += offs.reduce((s, o) => s + wrapAngle(o - turn), 0) / Math.max(1, offs.length);
  return Math.max(0, ...offs.map((o) => Math.abs(wrapAngle(o - turn))));
};
