import { DEGREE } from '@fayplate/core';

/** Included point angle of the usual drill, radians (118°, common practice). */
export const POINT_ANGLE = 118 * DEGREE;

/** How far a tap's or reamer's lead, or a drill's corner, must run beyond the far face, mm (common practice). */
export const RUN_THROUGH = 1;

/** Length of a drill's point, mm: 0.3004 of its diameter at 118°. */
export const pointLength = (diameter: number): number => diameter / 2 / Math.tan(POINT_ANGLE / 2);

/** To the drill's point, so that the full diameter comes through the far face or to the depth asked for. */
export const drillDepth = (diameter: number, fullDepth: number | null, thickness: number): number =>
  fullDepth === null ? thickness + pointLength(diameter) + RUN_THROUGH : fullDepth + pointLength(diameter);
