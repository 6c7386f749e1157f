import { type Point, apply } from '@fayplate/core';
import type { Adjustment } from '../adjust/adjustment.js';
import type { FeatureSlots } from '../network/unknowns.js';
import { bodiesOf } from './bodies.js';
import { type Datum, datumOf } from './datum.js';
import { times } from './rows.js';

/**
 * One coordinate of a feature in the face's frame: how much of its own x and y it takes, and of the frame's origin and
 * turn.
 */
export interface Axis {
  readonly x: number;
  readonly y: number;
  readonly originX: number;
  readonly originY: number;
  readonly turn: number;
}

export interface Placed {
  readonly slots: FeatureSlots;
  readonly point: Point;
  /** x, then y; null where the frame is chosen so that the coordinate is 0 exactly. */
  readonly axes: readonly [Axis | null, Axis | null];
}

/**
 * q = R(p − o): dq = R(dp − do) + dturn · (−q_y, q_x). Baarda's S-transformation, written out for the plane with the
 * scale held.
 */
export const inDatum = (datum: Datum, x: Float64Array, slots: FeatureSlots): Placed => {
  const q = apply(datum.motion, { x: x[slots.x] as number, y: x[slots.y] as number });
  const c = Math.cos(datum.motion.turn);
  const s = Math.sin(datum.motion.turn);
  const { exactX, exactY } = exactIn(datum, slots.id);
  return {
    slots,
    point: { x: exactX ? 0 : q.x, y: exactY ? 0 : q.y },
    axes: [
      exactX ? null : { x: c, y: -s, originX: -c, originY: s, turn: -q.y },
      exactY ? null : { x: s, y: c, originX: -s, originY: -c, turn: q.x },
    ],
  };
};

const exactIn = ({ frame }: Datum, id: string): { readonly exactX: boolean; readonly exactY: boolean } => {
  const origin = frame.origin === id;
  if ('across' in frame)
    return { exactX: origin, exactY: origin || (frame.across[1] === id && frame.across[0] === frame.origin) };
  const up = 'up' in frame ? frame.up : typeof frame.direction === 'object' ? frame.direction.up : null;
  return { exactX: origin || up === id, exactY: origin };
};

/**
 * The datum's own share of any axis for one vector of unknowns, computed once and used for every feature, and the
 * vector's largest entry.
 */
interface DatumShare {
  readonly originX: number;
  readonly originY: number;
  readonly turn: number;
  readonly most: number;
}

export const shareOf = (datum: Datum, v: Float64Array): DatumShare => ({
  originX: times(datum.originRows[0], v),
  originY: times(datum.originRows[1], v),
  turn: times(datum.turnRow, v),
  most: v.reduce((most, e) => Math.max(most, Math.abs(e)), 0),
});

/** How far a coordinate moves when the unknowns move by v. */
export const along = (axis: Axis | null, slots: FeatureSlots, v: Float64Array, share: DatumShare): number =>
  axis === null
    ? 0
    : axis.x * (v[slots.x] as number) +
      axis.y * (v[slots.y] as number) +
      axis.originX * share.originX +
      axis.originY * share.originY +
      axis.turn * share.turn;

/** Whether v leaves the coordinate unchanged, to within rounding. */
const isStill = (axis: Axis | null, slots: FeatureSlots, v: Float64Array, share: DatumShare): boolean => {
  if (axis === null) return true;
  const own = Math.hypot(v[slots.x] as number, v[slots.y] as number);
  const terms = Math.max(own, Math.hypot(share.originX, share.originY), Math.abs(axis.turn * share.turn));
  return Math.abs(along(axis, slots, v, share)) <= 1e-4 * terms + 1e-6 * share.most;
};

/** The coordinate as a full row over the unknowns. */
export const rowOfAxis = (axis: Axis | null, slots: FeatureSlots, datum: Datum, count: number): Float64Array => {
  const row = new Float64Array(count);
  if (axis === null) return row;
  const addTo = (slot: number, weight: number): void => {
    row[slot] = (row[slot] as number) + weight;
  };
  addTo(slots.x, axis.x);
  addTo(slots.y, axis.y);
  for (const [slot, weight] of datum.originRows[0]) addTo(slot, axis.originX * weight);
  for (const [slot, weight] of datum.originRows[1]) addTo(slot, axis.originY * weight);
  for (const [slot, weight] of datum.turnRow) addTo(slot, axis.turn * weight);
  return row;
};

/** The frame of a face and every feature that the readings fix in it. */
export const placeAll = (adjustment: Adjustment): { readonly datum: Datum; readonly placed: readonly Placed[] } => {
  const { network, values, nullSpace } = adjustment;
  const { face, unknowns } = network;
  const needsWhole = face.across === null && (face.centre === null || face.up === null);
  const whole = needsWhole ? (bodiesOf(adjustment, face.centre)[0] ?? []) : [];
  const datum = datumOf(face, unknowns, values, whole);
  const shares = nullSpace.map((v) => shareOf(datum, v));
  const placed = [...unknowns.features.values()]
    .map((slots) => inDatum(datum, values, slots))
    .filter(({ axes, slots }) =>
      shares.every((share, k) => axes.every((axis) => isStill(axis, slots, nullSpace[k] ?? values, share))),
    );
  return { datum, placed };
};
