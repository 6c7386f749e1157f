import { type Point, distance } from '@fayplate/core';
import type { Plate } from '@fayplate/plate';

/** A hole or bore of the plate as it can be measured. */
export interface Place extends Point {
  readonly id: string;
  readonly kind: 'hole' | 'bore' | 'spigot';
  readonly diameter: number;
  /** ± of the finished diameter where nobody has measured it, mm. */
  readonly plusMinus: number;
}

/** A drill cuts up to about a tenth over its size; a reamer or boring head keeps to a hundredth or two, mm (common practice). */
const DRILLED = 0.1;
const REAMED = 0.02;

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
        plusMinus: h.as === 'dowel' || h.as === 'slot' ? REAMED : DRILLED,
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
        plusMinus: REAMED,
      },
    ]),
  ]);

/** Round holes, and of bores and spigots about one centre the smallest; a slot has no centre to measure from, a relief pocket no true wall. */
export const measurable = (plate: Plate): readonly Place[] => {
  const rough = new Set(
    [...plate.holes.filter((h) => h.slot !== null), ...plate.bores.filter((b) => b.kind === 'relief')].map((h) => h.id),
  );
  const all = [...placesOf(plate).values()].filter((p) => !rough.has(p.id));
  const covers = (p: Place, q: Place): boolean =>
    q !== p &&
    q.kind !== 'hole' &&
    distance(p, q) < 1e-6 &&
    (q.diameter < p.diameter || (q.diameter === p.diameter && q.id < p.id));
  return all.filter((p) => p.kind === 'hole' || !all.some((q) => covers(p, q)));
};
