import { pointLength } from '@fayplate/handbook';

/** How far beyond the far face a drill's corner or a reamer's end must run, mm (common practice). */
export const RUN_THROUGH = 1;

/** To the drill's point, so that the full diameter comes through the far face or to the depth asked for, mm. */
export const drillDepth = (diameter: number, fullDepth: number | null, thickness: number): number => endDepth(fullDepth, thickness) + pointLength(diameter);

/** To the end of a tool without a point, mm. */
export const endDepth = (fullDepth: number | null, thickness: number): number => fullDepth ?? thickness + RUN_THROUGH;
