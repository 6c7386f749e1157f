import { type Point, distance } from '@fayplate/core';
import type { Plate, PlateBore, PlateHole, Side } from '@fayplate/plate';

/** A hole or bore of the plate as it can be measured. */
export interface Place extends Point {
  readonly id: string;
  readonly kind: 'hole' | 'bore' | 'spigot';
  /** As designed, mm. */
  readonly diameter: number;
  /** What the finished diameter is thought to be where nobody has measured it, with its ±, mm. */
  readonly finished: { readonly value: number; readonly plusMinus: number };
}

/**
 * A drill cuts up to about a tenth over its size; a reamer or boring head keeps to a hundredth or two either way, mm
 * (common practice).
 */
const DRILLED = 0.1;
const REAMED = 0.02;
/**
 * ± of a size that may lie anywhere between two limits, beside half their distance: either limit is one standard
 * deviation off. An even spread would make it less, but one drill cuts all its holes alike, and all may lie at the same
 * limit.
 */
const TO_LIMIT = 2;

/** A finished diameter that nobody has measured: anywhere within the plate's own limits; else what the tool leaves. */
const finishedOf = (
  { diameter, limits }: Pick<PlateHole, 'diameter' | 'limits'>,
  reamed: boolean,
): Place['finished'] => {
  if (limits !== null && limits[1] > limits[0])
    return { value: (limits[0] + limits[1]) / 2, plusMinus: (TO_LIMIT * (limits[1] - limits[0])) / 2 };
  return reamed
    ? { value: diameter, plusMinus: REAMED }
    : { value: diameter + DRILLED / 2, plusMinus: (TO_LIMIT * DRILLED) / 2 };
};

/** Every hole and bore of the plate by its id. */
export const placesOf = (plate: Plate): ReadonlyMap<string, Place> =>
  new Map([
    ...plate.holes.map((h): [string, Place] => [
      h.id,
      {
        id: h.id,
        kind: 'hole',
        x: h.x,
        y: h.y,
        diameter: h.diameter,
        finished: finishedOf(h, h.as === 'dowel' || h.as === 'slot'),
      },
    ]),
    ...plate.bores.map((b): [string, Place] => [
      b.id,
      {
        id: b.id,
        kind: b.kind === 'spigot' ? 'spigot' : 'bore',
        x: b.x,
        y: b.y,
        diameter: b.diameter,
        finished: finishedOf(b, true),
      },
    ]),
  ]);

/** Whether jaws find the wall of a hole or bore at the surface of a side. */
const isOpenOn = (cut: PlateHole | PlateBore, side: Side): boolean =>
  'kind' in cut
    ? cut.side === 'through' || cut.side === side
    : cut.sink?.side !== side && (cut.depth === null || cut.from === side);

/**
 * The side on which jaws reach most walls: where fewest holes are sunk or end blind before it; side B where it is the
 * same.
 */
export const readingSide = (plate: Plate): Side => {
  const shut = (side: Side): number => plate.holes.filter((h) => !isOpenOn(h, side)).length;
  return shut('A') < shut('B') ? 'A' : 'B';
};

/**
 * A dowel of the plate alone is reamed with its part when the shafts run true: until then there is no hole, or only its
 * pilot.
 */
export const isReamedLater = (h: PlateHole): boolean => h.as === 'dowel' && h.part === null;

/**
 * What is measured on a drilled plate: round holes, and of bores and spigots about one centre the one whose wall jaws
 * meet first on the side that is read from, since a recess keeps them off the bore within it. A slot has no centre to
 * measure from, a relief pocket no true wall.
 */
export const measurable = (plate: Plate): readonly Place[] => {
  const side = readingSide(plate);
  const rough = new Set(
    [
      ...plate.holes.filter((h) => h.slot !== null || isReamedLater(h)),
      ...plate.bores.filter((b) => b.kind === 'relief'),
    ].map((h) => h.id),
  );
  const open = new Set(plate.bores.filter((b) => isOpenOn(b, side)).map((b) => b.id));
  const all = [...placesOf(plate).values()].filter((p) => !rough.has(p.id));
  const rank = (p: Place): number => (open.has(p.id) ? p.diameter : -1 / p.diameter);
  const covers = (p: Place, q: Place): boolean =>
    q !== p &&
    q.kind !== 'hole' &&
    distance(p, q) < 1e-6 &&
    (rank(q) > rank(p) || (rank(q) === rank(p) && q.id < p.id));
  return all.filter((p) => p.kind === 'hole' || !all.some((q) => covers(p, q)));
};

/** Holes and bores that are not measured, neither themselves nor by another about the same centre. */
export const notMeasured = (plate: Plate, measured: readonly string[]): readonly Place[] => {
  const places = placesOf(plate);
  return measurable(plate).filter(
    (p) =>
      !measured.some((id) => {
        const q = places.get(id);
        return id === p.id || (q !== undefined && q.kind !== 'hole' && p.kind !== 'hole' && distance(p, q) < 1e-6);
      }),
  );
};
