import { type Point, add, polar, subtract } from '@fayplate/core';
import { pointLength } from '@fayplate/handbook';
import { boreRadius, boreSpine } from '../bores/shape.js';
import type { PlateBore, PlateHole } from '../types.js';
import type { Cut, Slice } from './cut.js';

/** Radius of the metal that is really gone: a thread counts at its major diameter as deep as it goes. */
const threadRadius = (hole: PlateHole): number => Math.max(hole.diameter, hole.thread?.major ?? 0) / 2;

/** Slices written as depths below the side they are cut from, turned into z. */
const slicesFrom = (
  side: 'A' | 'B',
  land: readonly [number, number],
  steps: readonly { readonly from: number; readonly to: number; readonly r0: number; readonly r1: number }[],
): readonly Slice[] =>
  steps
    .filter((s) => s.to - s.from > 1e-9)
    .map((s) =>
      side === 'B'
        ? { z0: land[1] - s.to, z1: land[1] - s.from, r0: s.r1, r1: s.r0 }
        : { z0: land[0] + s.from, z1: land[0] + s.to, r0: s.r0, r1: s.r1 },
    );

/** What a hole is all places near to: its centre, or of a slot the centres of its ends. */
export const holeSpine = (hole: PlateHole): readonly [Point, Point] => {
  const at = { x: hole.x, y: hole.y };
  if (hole.slot === null) return [at, at];
  const half = polar(hole.slot.length / 2, hole.slot.angle);
  return [subtract(at, half), add(at, half)];
};

/**
 * The hole as a solid, its sink and drill point included; one that lies in an opening is looked at as if the plate were
 * whole there.
 */
export const holeCut = (placed: PlateHole, turns: boolean, thickness: number): Cut => {
  const hole = placed.land[1] > placed.land[0] ? placed : { ...placed, land: [0, thickness] as const };
  const r = threadRadius(hole);
  const drill = hole.diameter / 2;
  const height = hole.land[1] - hole.land[0];
  const sink = hole.sink;
  const mouth = sink === null ? 0 : sink.depth;
  const side = sink?.side ?? hole.from;
  const bottom = hole.depth === null ? height : Math.min(hole.depth, height);
  const threaded = hole.thread?.depth ?? bottom;
  const steps = [
    ...(sink === null
      ? []
      : [
          {
            from: 0,
            to: Math.min(mouth, height),
            r0: sink.diameter / 2,
            r1: sink.kind === 'countersunk' ? r : sink.diameter / 2,
          },
        ]),
    ...(hole.depth === null
      ? [{ from: mouth, to: height, r0: r, r1: r }]
      : [
          { from: mouth, to: Math.min(threaded, bottom), r0: r, r1: r },
          { from: Math.max(mouth, threaded), to: bottom, r0: drill, r1: drill },
          {
            from: bottom,
            to: Math.min(height, bottom + pointLength(hole.diameter)),
            r0: drill,
            r1: Math.max(
              0,
              drill -
                ((Math.min(height, bottom + pointLength(hole.diameter)) - bottom) * drill) / pointLength(hole.diameter),
            ),
          },
        ]),
  ];
  return {
    id: hole.id,
    what: 'hole',
    spine: holeSpine(hole),
    slices: slicesFrom(side, hole.land, steps),
    turns,
    nominal: hole.fastening?.nominal ?? hole.thread?.major ?? null,
  };
};

/**
 * A bore, recess or pocket as a solid; null for a raised spigot, which takes nothing away, and for a notch that is part
 * of the outline.
 */
export const boreCut = (bore: PlateBore, thickness: number, turns: boolean): Cut | null => {
  if (bore.kind === 'spigot' || (bore.box?.notch === true && bore.depth === null)) return null;
  const r = boreRadius(bore);
  const depth = Math.min(bore.depth ?? thickness, thickness);
  const [z0, z1] = bore.side === 'B' ? [thickness - depth, thickness] : [0, depth];
  return {
    id: bore.id,
    what: bore.kind === 'relief' ? 'relief' : bore.kind === 'recess' ? 'recess' : 'bore',
    spine: boreSpine(bore),
    slices: [{ z0, z1, r0: r, r1: r }],
    ...(bore.box?.notch === true ? { notch: true as const } : {}),
    turns,
    nominal: null,
  };
};
