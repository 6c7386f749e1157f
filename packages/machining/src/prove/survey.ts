import { type Point, centroid, distance, heading, subtract } from '@fayplate/core';
import type { Face, Feature, Job } from '@fayplate/job';
import type { Plate } from '@fayplate/plate';
import type { Survey } from '@fayplate/survey';
import { placesOf } from '../checks/places.js';

/**
 * The drilled plate as a face to survey: its holes with their finished diameters, unless a reading gives them, and
 * where to start looking for each.
 * `starts` are places as seen from the side that the readings were taken from.
 */
export const drilledSurvey = (drilled: Face, plate: Plate, job: Job, starts: ReadonlyMap<string, Point>): Survey => {
  const places = placesOf(plate);
  const frame = frameOf(drilled, starts);
  const middle = starts.get(frame.centre ?? '') ?? centroid(drilled.features.flatMap((f) => starts.get(f.id) ?? []));
  const measured = new Set(drilled.readings.flatMap((r) => (r.kind === 'dia' && !r.aside ? r.features : [])));
  const features = drilled.features.map((f): Feature => {
    const place = places.get(f.id);
    const start = starts.get(f.id);
    const known = place === undefined || measured.has(f.id) ? null : place.finished;
    return {
      ...f,
      kind: place?.kind ?? f.kind,
      diameter: known,
      diameterFrom: known === null ? null : 'job',
      clock: start === undefined ? null : heading(subtract(start, middle)),
    };
  });
  return { face: { ...drilled, ...frame, viewed: 'from outside', features }, instruments: job.instruments };
};

/**
 * Features that readings hold in place: by a place, or by two lengths or angles. One of which only the diameter was
 * taken may lie anywhere.
 */
const heldIn = (drilled: Face): ReadonlySet<string> => {
  const placing = drilled.readings.filter((r) => r.kind !== 'dia' && !r.aside);
  const times = (id: string): number =>
    placing.filter((r) => r.features.includes(id)).reduce((n, r) => n + (r.kind === 'at' ? 2 : 1), 0);
  return new Set(drilled.features.map((f) => f.id).filter((id) => times(id) > 1));
};

/**
 * The frame that the job asks for; else about the feature that lies nearest the middle, up to the farthest from it, so
 * that no direction hangs on two places close together.
 */
const frameOf = (drilled: Face, starts: ReadonlyMap<string, Point>): Pick<Face, 'centre' | 'up' | 'across'> => {
  const { centre, up, across } = drilled;
  const all = drilled.features.map((f) => f.id).filter((id) => starts.has(id));
  const held = heldIn(drilled);
  const some = all.filter((id) => held.has(id));
  const ids = some.length < 2 ? all : some;
  if (up !== null || across !== null || ids.length < 2) return { centre, up, across };
  const at = (id: string): Point => starts.get(id) ?? { x: 0, y: 0 };
  const middle = centroid(ids.map(at));
  const nearest = centre ?? ids.reduce((a, b) => (distance(at(b), middle) < distance(at(a), middle) - 1e-9 ? b : a));
  const farthest = ids.reduce((a, b) => (distance(at(b), at(nearest)) > distance(at(a), at(nearest)) + 1e-9 ? b : a));
  return { centre: nearest, up: farthest, across: null };
};
