import type { Adjustment } from '../adjust/adjustment.js';
import { bodiesOf } from './bodies.js';
import { type Datum, datumOf } from './datum.js';
import { type Placed, isStill, placeIn, shareOf } from './placed.js';

/** The frame of a face and every feature that the readings fix in it. */
export const placeAll = (adjustment: Adjustment): { readonly datum: Datum; readonly placed: readonly Placed[] } => {
  const { network, values, nullSpace } = adjustment;
  const { face, unknowns } = network;
  const needsWhole = face.across === null && (face.centre === null || face.up === null);
  const whole = needsWhole ? (bodiesOf(adjustment, face.centre)[0] ?? []) : [];
  const datum = datumOf(face, unknowns, values, whole);
  const shares = nullSpace.map((v) => shareOf(datum, v));
  const placed = [...unknowns.features.values()]
    .map((slots) => placeIn(datum, values, slots))
    .filter(({ axes, slots }) =>
      shares.every((share, k) => axes.every((axis) => isStill(axis, slots, nullSpace[k] ?? values, share))),
    );
  return { datum, placed };
};
