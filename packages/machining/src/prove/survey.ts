import { type Point, centroid, heading, subtract } from '@fayplate/core';
import type { Face, Feature, Job } from '@fayplate/job';
import type { Plate } from '@fayplate/plate';
import type { Survey } from '@fayplate/survey';
import { placesOf } from '../checks/places.js';

/**
 * The drilled plate as a face to survey: its holes with their finished diameters, unless a reading gives them, and where to start looking for each.
 * `starts` are places as seen from the side that the readings were taken from.
 */
export const drilledSurvey = (drilled: Face, plate: Plate, job: Job, starts: ReadonlyMap<string, Point>): Survey => {
  const places = placesOf(plate);
  const middle = centroid(drilled.features.flatMap((f) => starts.get(f.id) ?? []));
  const measured = new Set(drilled.readings.flatMap((r) => (r.kind === 'dia' && !r.aside ? r.features : [])));
  const features = drilled.features.map((f): Feature => {
    const place = places.get(f.id);
    const start = starts.get(f.id);
    const known = place === undefined || measured.has(f.id) ? null : { value: place.diameter, plusMinus: place.plusMinus };
    return { ...f, kind: place?.kind ?? f.kind, diameter: known, diameterFrom: known === null ? null : 'job', clock: start === undefined ? null : heading(subtract(start, middle)) };
  });
  return { face: { ...drilled, viewed: 'from outside', features }, instruments: job.instruments };
};
