import { type LengthUnit, MM_PER_INCH, type Point, midpoint, perUnit, roundTo } from '@fayplate/core';
import type { Job } from '@fayplate/job';
import type { MatedFace, Plate } from '@fayplate/plate';

/** Finest place that a table shows: 0.001 mm, 0.0001 in. */
export const finest = (unit: LengthUnit): number => (unit === 'in' ? 0.0001 * MM_PER_INCH : 0.001);

/** Decimal places in which a table in this unit is printed. */
export const placesIn = (unit: LengthUnit): number => (unit === 'in' ? 4 : 3);

/** A length as it is set on the machine: a multiple of its step, as the table prints it, mm. */
const asSet = (mm: number, step: number, unit: LengthUnit): number => {
  const printed = Number((roundTo(mm, step) / perUnit(unit)).toFixed(placesIn(unit)));
  return (Object.is(printed, -0) ? 0 : printed) * perUnit(unit);
};

export const setPoint = (p: Point, step: number, unit: LengthUnit): Point => ({
  x: asSet(p.x, step, unit),
  y: asSet(p.y, step, unit),
});

export interface NamedPlace {
  readonly name: string;
  readonly at: Point;
}

/**
 * A named place of the plate, plate frame: a hole or bore, a feature that one stands for, a face's centre, or the
 * middle of two holes; null where there is none of that name.
 */
export const placeOf = (text: string, plate: Plate, job: Job, mated: readonly MatedFace[] = []): NamedPlace | null => {
  const words = text.trim();
  const middle = /^middle(?: of)? (\S+)(?: and)? (\S+)$/.exec(words);
  if (middle !== null) {
    const a = placeOf(middle[1] ?? '', plate, job, mated);
    const b = placeOf(middle[2] ?? '', plate, job, mated);
    return a === null || b === null ? null : { name: `middle of ${a.name} and ${b.name}`, at: midpoint(a.at, b.at) };
  }
  const cut = [...plate.holes, ...plate.bores].find((h) => h.id === words || h.feature === words);
  if (cut !== undefined) return { name: words, at: { x: cut.x, y: cut.y } };
  return faceCentre(words, plate, job, mated);
};

/**
 * A face named by itself or by the feature that it is measured from. The plate's frame has the first face's origin; the
 * second's is where mating laid it.
 */
const faceCentre = (words: string, plate: Plate, job: Job, mated: readonly MatedFace[]): NamedPlace | null => {
  for (const name of plate.faces) {
    const face = job.faces.find((f) => f.name === name);
    const centre = face?.centre ?? face?.across?.[0] ?? null;
    const full = centre === null ? name : `${name}.${centre}`;
    if (words !== name && words !== full) continue;
    const at =
      mated.find((m) => m.face === name)?.centre ??
      plate.bores.find((b) => b.feature === full) ??
      (name === plate.faces[0] ? { x: 0, y: 0 } : null);
    if (at !== null)
      return { name: centre === null ? `the middle of ${name}’s centres` : full, at: { x: at.x, y: at.y } };
  }
  return null;
};

/** Names that `placeOf` knows, for a person who wrote another. */
export const placeNames = (plate: Plate): readonly string[] => [
  ...plate.faces,
  ...plate.bores.map((b) => b.id),
  ...plate.holes.map((h) => h.id),
];
