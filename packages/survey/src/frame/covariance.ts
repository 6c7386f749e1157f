import type { Adjustment } from '../adjust/adjustment.js';
import type { Matrix2 } from '../types.js';
import type { Datum } from './datum.js';
import { type Axis, type Placed, along, rowOfAxis, shareOf } from './placed.js';
import { dense } from './rows.js';

/**
 * Covariance of each feature's centre in the face's frame: three solutions for the frame itself, then a few products a
 * feature.
 */
export const centreCovariances = (adjustment: Adjustment, datum: Datum): ((placed: Placed) => Matrix2) => {
  const { solve, cofactor, network } = adjustment;
  const count = network.unknowns.count;
  const columns = [...datum.originRows, datum.turnRow].map((row) => solve(dense(row, count)));
  const shares = columns.map((column) => {
    const share = shareOf(datum, column);
    return [share.originX, share.originY, share.turn];
  });
  const own = (axis: Axis): readonly number[] => [axis.originX, axis.originY, axis.turn];
  return ({ slots, axes }) => {
    const xx = cofactor(slots.x, slots.x);
    const xy = cofactor(slots.x, slots.y);
    const yy = cofactor(slots.y, slots.y);
    const entry = (a: Axis | null, b: Axis | null): number => {
      if (a === null || b === null) return 0;
      let sum = a.x * b.x * xx + (a.x * b.y + a.y * b.x) * xy + a.y * b.y * yy;
      for (const [k, column] of columns.entries()) {
        const at = { x: column[slots.x] as number, y: column[slots.y] as number };
        sum += (own(b)[k] ?? 0) * (a.x * at.x + a.y * at.y) + (own(a)[k] ?? 0) * (b.x * at.x + b.y * at.y);
        for (const [l, share] of (shares[k] ?? []).entries()) sum += (own(a)[l] ?? 0) * (own(b)[k] ?? 0) * share;
      }
      return sum;
    };
    const off = entry(axes[0], axes[1]);
    return [
      [Math.max(entry(axes[0], axes[0]), 0), off],
      [off, Math.max(entry(axes[1], axes[1]), 0)],
    ];
  };
};

/** Joint covariance of several centres, rows x₁ y₁ x₂ y₂ …, mm². */
export const jointCovariance = (
  { solve, network }: Adjustment,
  datum: Datum,
  placed: readonly Placed[],
): readonly (readonly number[])[] => {
  const lines = placed.flatMap((p) => p.axes.map((axis) => ({ axis, slots: p.slots })));
  const columns = lines.map(({ axis, slots }) => solve(rowOfAxis(axis, slots, datum, network.unknowns.count)));
  const shares = columns.map((column) => shareOf(datum, column));
  const entry = (i: number, j: number): number => {
    const line = lines[i];
    const column = columns[j];
    const share = shares[j];
    return line === undefined || column === undefined || share === undefined
      ? 0
      : along(line.axis, line.slots, column, share);
  };
  return lines.map((_, i) => lines.map((_, j) => (entry(i, j) + entry(j, i)) / 2));
};
