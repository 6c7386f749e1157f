import { DEGREE } from '@fayplate/core';
import { type Plate, type PlateHole, type Side, deeperOnly } from '@fayplate/plate';
import { type Cut, endsOf } from './operation.js';
import type { Shop } from './shop.js';

export type Base = Pick<Cut, 'hole' | 'at' | 'side' | 'pitch' | 'note'>;

export const sunk = (hole: PlateHole, base: Base, plate: Plate, shop: Shop): readonly Cut[] => {
  const { sink } = hole;
  if (sink === null) return [];
  const side: Side = sink.side;
  const { mouth } = endsOf(hole.land, side, plate.thickness);
  if (sink.kind === 'countersunk') {
    const angle = 2 * Math.atan2((sink.diameter - hole.diameter) / 2, sink.depth);
    return [{ ...base, side, op: 'countersink', ...cone(sink.diameter, mouth, shop, angle) }];
  }
  const op = sink.kind === 'counterbored' ? 'counterbore' : 'spotface';
  return [
    {
      ...base,
      side,
      op,
      tool: `counterbore ${shop.sold(sink.diameter)}, pilot ${shop.sold(hole.diameter)}`,
      toolDiameter: sink.diameter,
      depth: mouth + sink.depth,
      ...(sink.kind === 'counterbored' ? { depthLimits: deeperOnly(mouth + sink.depth) } : {}),
    },
  ];
};

/** A cone that opens a hole to `wide` at its mouth, with the depth of its sharp point. */
const cone = (
  wide: number,
  mouth: number,
  shop: Shop,
  angle = 90 * DEGREE,
): Pick<Cut, 'tool' | 'toolDiameter' | 'depth' | 'note'> => ({
  tool: `countersink ${Math.round(angle / DEGREE)}°`,
  toolDiameter: wide,
  depth: mouth + wide / 2 / Math.tan(angle / 2),
  note: `to ⌀ ${shop.say(wide)}`,
});

/**
 * How much wider than its thread a tapped hole is chamfered, mm: 0.010 to 0.015 in. Source: a trade journal on chamfers
 * and burrs, read.
 */
const OVER_THREAD = 0.3;

/** How wide the chamfer of a hole is at its mouth, mm. */
export const chamferWidth = (hole: Pick<PlateHole, 'diameter' | 'thread'>): number =>
  hole.thread === null ? hole.diameter + 1 : hole.thread.major + OVER_THREAD;

/**
 * Breaks the edge by half a millimetre, a tapped hole's to a little over its thread, before the tap, which then starts
 * true and raises no burr.
 */
export const chamfer = (hole: PlateHole, base: Base, mouth: number, shop: Shop): Cut => ({
  ...base,
  op: 'chamfer',
  ...cone(chamferWidth(hole), mouth, shop),
});
