import { type Point, apply, distance, register } from '@fayplate/core';
import type { Job } from '@fayplate/job';
import type { Plate, PlateBore } from '@fayplate/plate';
import type { Pattern } from '@fayplate/survey';
import type { Shape } from './shape.js';

/** Where a hole or bore of the plate is, by its readings or by what can be said without. */
export interface Measured {
  readonly at: Point;
  /** Measured diameter and its ±, mm; null: as designed. */
  readonly diameter: { readonly value: number; readonly plusMinus: number } | null;
  /** The measured hole or bore whose ± it has; null where no reading fixes it. */
  readonly as: string | null;
}

/** The plate as measured, under the names that its holes really have. */
export interface AsMeasured {
  readonly laid: Pattern;
  /** Real name → name in the readings, where they differ. */
  readonly readAs: ReadonlyMap<string, string>;
  readonly shape: Shape;
}

/**
 * Where everything is that one face meets: what the readings fix; a bore about the same centre as a measured one, with it, for both are cut in one setting;
 * another register where the drawing has it among the face's own holes.
 */
export const placesFor = (
  face: string,
  plate: Plate,
  job: Job,
  { laid, readAs, shape }: AsMeasured,
): ReadonlyMap<string, Measured> => {
  const places = new Map(
    laid.ids.map((id, i): [string, Measured] => [
      id,
      { at: laid.points[i] ?? { x: 0, y: 0 }, diameter: sizeRead(readAs.get(id) ?? id, job, shape), as: id },
    ]),
  );
  const own = plate.holes.filter((h) => h.part?.face === face && places.has(h.id));
  for (const bore of plate.bores) {
    if (places.has(bore.id)) continue;
    const fellow = boreWith(bore, plate, laid.ids);
    const at = fellow === null ? amongOwn(bore, own, places) : (places.get(fellow.id)?.at ?? null);
    if (at !== null) places.set(bore.id, { at, diameter: null, as: fellow?.id ?? null });
  }
  return places;
};

/** The measured bore about the same centre; null where there is none. */
export const boreWith = (bore: PlateBore, plate: Plate, measured: readonly string[]): PlateBore | null =>
  plate.bores.find((b) => b.id !== bore.id && measured.includes(b.id) && distance(b, bore) < 1e-6) ?? null;

const amongOwn = (
  bore: PlateBore,
  own: readonly (Point & { readonly id: string })[],
  places: ReadonlyMap<string, Measured>,
): Point | null =>
  own.length < 2
    ? null
    : apply(
        register(
          own,
          own.map((h) => places.get(h.id)?.at ?? h),
        ),
        bore,
      );

/** The diameter that a `dia` reading gives. */
export const sizeRead = (id: string, job: Job, shape: Shape): Measured['diameter'] => {
  const read = job.drilled?.readings.some((r) => r.kind === 'dia' && !r.aside && r.features[0] === id) === true;
  const f = shape.located.features.get(id);
  return !read || f?.radius === null || f === undefined
    ? null
    : { value: 2 * f.radius, plusMinus: 4 * (f.radiusSigma ?? 0) };
};
