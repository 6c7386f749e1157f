import { type Point, heading, norm, subtract, toDegrees } from '@fayplate/core';
import type { TableRow } from '../types.js';

/** A hole's place said three ways, all from the places as set, so that a row read any way leads to the same hole. */
export interface PlaceColumns {
  readonly hole: string;
  readonly absolute: Point;
  /** From the place before it; from the origin for the first of a side. A cut in the same place is no step. */
  readonly incremental: Point;
  /** mm, and degrees counter-clockwise from +x in [0, 360). */
  readonly polar: { readonly radius: number; readonly angle: number };
}

/** One entry for each row of one side, in the order of the table. */
export const placeColumns = (rows: readonly TableRow[]): readonly PlaceColumns[] =>
  rows.map((row, i) => {
    const before = rows[i - 1]?.set ?? { x: 0, y: 0 };
    const angle = toDegrees(heading(row.set));
    return {
      hole: row.hole,
      absolute: row.set,
      incremental: subtract(row.set, before),
      polar: { radius: norm(row.set), angle: angle < 0 ? angle + 360 : angle },
    };
  });
