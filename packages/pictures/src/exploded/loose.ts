import { type Path, type Point, circlePath, polar, polygonPath } from '@fayplate/core';
import type { PlateHole } from '@fayplate/plate';
import { type ExplodedInput, PAST, cut, metal } from './piece.js';
import { type Body, type Prism, disc, ringOf } from './solid.js';

/**
 * A nut, washer, head or pin that floats before or behind a piece, on its axis; levels are counted from its lower end,
 * mm.
 */
export interface Loose {
  readonly axis: string;
  readonly at: Point;
  readonly body: Body;
  readonly height: number;
  /** Between the plate and the part on this side; `behind`: beyond that part. */
  readonly side: 'A' | 'B';
  readonly behind: boolean;
}
export const STUD = 3;
/** A dowel stands so far out of either piece, in diameters (common practice). */
const DOWEL = 2;

const hexagon = (at: Point, corners: number): Path =>
  polygonPath(
    Array.from({ length: 6 }, (_, i) => {
      const p = polar(corners / 2, (i * Math.PI) / 3);
      return { x: at.x + p.x, y: at.y + p.y };
    }),
  );

/** Nut or head on a shank of some length, its washer under it; `up`: the head lies above. */
const boltBody = (hole: PlateHole, long: number, up: boolean, tolerance: number): { body: Body; height: number } => {
  const { nominal = 0, head = null } = hole.fastening ?? {};
  const washer = head?.washer ?? null;
  const own = head !== null && head.kind !== 'nut';
  const high = own ? Math.max(0.5, head.height) : 0.65 * nominal;
  const path = own
    ? circlePath({ x: hole.x, y: hole.y }, (washer === null ? head.diameter : 1.5 * nominal) / 2)
    : hexagon(hole, 1.85 * nominal);
  const flat = washer?.thickness ?? 0;
  const all = long + high + flat;
  const at = (from: number, to: number): Pick<Prism, 'from' | 'to'> =>
    up ? { from, to } : { from: all - to, to: all - from };
  return {
    height: all,
    body: [
      metal({ ring: disc(hole, nominal, tolerance), ...at(0, long) }),
      ...(washer === null ? [] : [metal({ ring: disc(hole, washer.outside, tolerance), ...at(long, long + flat) })]),
      metal({ ring: ringOf(path, tolerance), ...at(long + flat, all) }),
    ],
  };
};

const nutBody = (hole: PlateHole, up: boolean, tolerance: number): { body: Body; height: number } => {
  const { nominal = 0, head = null } = hole.fastening ?? {};
  const washer = head?.washer ?? null;
  const flat = washer?.thickness ?? 0;
  const high = Math.max(0.5, (head?.height ?? 0.85 * nominal + flat) - flat);
  const all = flat + high;
  const at = (from: number, to: number): Pick<Prism, 'from' | 'to'> =>
    up ? { from, to } : { from: all - to, to: all - from };
  const corners = washer === null && head !== null ? head.diameter : 1.85 * nominal;
  return {
    height: all,
    body: [
      ...(washer === null ? [] : [metal({ ring: disc(hole, washer.outside, tolerance), ...at(0, flat) })]),
      metal({ ring: ringOf(hexagon(hole, corners), tolerance), ...at(flat, all) }),
      cut({ ring: disc(hole, nominal, tolerance), from: -PAST, to: all + PAST }),
    ],
  };
};

/** What is put on or through the holes, each on its axis; what stands in a part already is part of it. */
export const looseOf = (input: ExplodedInput, tolerance: number): readonly Loose[] =>
  input.plate.holes.flatMap((hole): readonly Loose[] => {
    const f = hole.fastening;
    const mated = input.mated.find((m) => m.face === hole.part?.face);
    if (f === null || (hole.part !== null && mated === undefined)) return [];
    const side = mated?.side ?? 'A';
    const other = side === 'A' ? 'B' : 'A';
    const base = { axis: hole.id, at: { x: hole.x, y: hole.y } };
    const bolt = input.plate.bolts.find((b) => b.holes.includes(hole.id));
    const long =
      bolt === undefined ? input.plate.thickness + f.nominal : (bolt.stock ?? Math.max(bolt.least, f.nominal));
    const nut = (on: 'A' | 'B', behind: boolean): Loose => ({
      ...base,
      // Farther from the plate is above on side B.
      ...nutBody(hole, on === 'B', tolerance),
      side: on,
      behind,
    });
    const pin = (length: number): Loose => ({
      ...base,
      body: [metal({ ring: disc(hole, f.nominal, tolerance), from: 0, to: length })],
      height: length,
      side,
      behind: false,
    });
    if (f.kind === 'stud') return f.head === null ? [] : [nut(f.head.side, f.head.side === side)];
    if (f.kind === 'dowel') {
      const stands = input.job.faces
        .find((x) => x.name === hole.part?.face)
        ?.features.some((x) => x.id === hole.part?.feature && x.kind === 'dowel');
      return stands === true ? [] : [pin(input.plate.thickness / 2 + DOWEL * f.nominal)];
    }
    if (f.kind === 'set stud') return [pin(long), nut(side, true)];
    if (f.kind === 'screw')
      return [
        {
          ...base,
          ...boltBody(hole, long, (f.head?.side ?? other) === 'B', tolerance),
          side: f.head?.side ?? other,
          behind: false,
        },
      ];
    const plain = { ...hole, fastening: { ...f, head: null } };
    return [
      { ...base, ...boltBody(plain, long, side === 'B', tolerance), side, behind: true },
      ...(f.head === null ? [] : [nut(f.head.side, false)]),
    ];
  });
