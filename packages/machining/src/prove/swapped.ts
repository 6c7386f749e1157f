import type { Plate } from '@fayplate/plate';
import type { LocatedFace } from '@fayplate/survey';
import { placesOf } from '../checks/places.js';

/** Sizes nearer than this are one, mm: what a drill cuts over its size, and what jaws read. */
const SAME = 0.15;

/** The diameter that the readings give each hole, one that the plate's own size misled among them, mm. */
const diametersOf = (located: LocatedFace): ReadonlyMap<string, number> => {
  const found = new Map([...located.features].flatMap(([id, f]) => (f.radius === null ? [] : [[id, 2 * f.radius]])));
  for (const s of located.suspects) {
    const id = /^diameter (.+)$/.exec(s.reading)?.[1];
    const value = located.readings.find((r) => r.id === s.reading)?.value;
    if (id !== undefined && value !== undefined) found.set(id, value - s.error);
  }
  return found;
};

/** Pairs of holes of which each came out in the other's size. */
export const swappedSizes = (plate: Plate, located: LocatedFace): readonly (readonly [string, string])[] => {
  const measured = diametersOf(located);
  const designed = placesOf(plate);
  const isSize = (id: string, of: string): boolean =>
    Math.abs((measured.get(id) ?? Number.POSITIVE_INFINITY) - (designed.get(of)?.finished.value ?? 0)) <= SAME;
  const ids = [...measured.keys()].filter((id) => designed.has(id) && !isSize(id, id));
  return ids.flatMap((a, i) =>
    ids
      .slice(i + 1)
      .flatMap((b): readonly (readonly [string, string])[] => (isSize(a, b) && isSize(b, a) ? [[a, b]] : [])),
  );
};
