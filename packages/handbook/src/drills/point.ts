import { DEGREE } from '@fayplate/core';

/** The usual point of a twist drill. Source: common practice. */
export const usualPoint = 118 * DEGREE;

/** How far the cone of a drill's point reaches beyond its full diameter, mm; `angle` is the included angle, radians. */
export const pointLength = (diameter: number, angle = usualPoint): number => diameter / 2 / Math.tan(angle / 2);
