import { type Point, apply, distance, register } from '@fayplate/core';
import type { Plate, PlateBore } from '@fayplate/plate';
import type { LocatedFace, Pattern } from '@fayplate/survey';
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
 * Where everything is that one face meets: what the readings fix; a bore about the same centre as a measured one, with
 * it, for both are cut in one setting; another register where the drawing has it among the face's own holes.
 */
export const placesFor = (
  face: string,
  plate: Plate,
  { laid, readAs, shape }: AsMeasured,
): ReadonlyMap<string, Measured> => {
  const places = new Map(
    laid.ids.map((id, i): [string, Measured] => [
      id,
      { at: laid.points[i] ?? { x: 0, y: 0 }, diameter: sizeRead(readAs.get(id) ?? id, shape.located), as: id },
    ]),
  );
  const own = plate.holes.filter((h) => h.part?.face === face && places.has(h.id));
  for (const bore of plate.bores) {
    if (places.has(bore.id)) continue;
    const fellow = boreWith(bore, plate, laid.ids);
    const at = fellow === null ? amongOwn(bore, own, places) : (places.get(fellow.id)?.at ?? null);
    const diameter = sizeRead(readAs.get(bore.id) ?? bore.id, shape.located);
    if (at !== null) places.set(bore.id, { at, diameter, as: fellow?.id ?? null });
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

/**
 * The diameter that `dia` readings give a hole, under its name in them, with its ± at 95 in 100, mm; null where none
 * was taken. A hole of which nothing else was read has a size too, though no place.
 */
export const sizeRead = (id: string, located: LocatedFace): Measured['diameter'] => {
  const read = located.readings.find((r) => r.kind === 'dia' && (r.text.split('=')[0] ?? '').split(/\s+/).includes(id));
  if (read === undefined) return null;
  const f = located.features.get(id);
  return f?.radius == null
    ? { value: read.fitted, plusMinus: 2 * read.sigma * Math.sqrt(Math.max(0, 1 - read.redundancy)) }
    : { value: 2 * f.radius, plusMinus: 4 * (f.radiusSigma ?? 0) };
};
