import type { Point } from '@fayplate/core';
import type { StandardFace } from './face.js';

/** A hole of a standard face: its name, its clock (radians counter-clockwise from +x) and its centre about the register, mm. */
export interface FaceHole {
  readonly id: string;
  readonly clock: number;
  readonly at: Point;
}

/** No −0 and no 1e-15. */
const clean = (mm: number): number => Math.round(mm * 1e9) / 1e9 + 0;

/** The bolt holes B1, B2 … clockwise from 12 o'clock, the first half a division past it; seen from off the part. */
export const faceHoles = ({ holes: { count, circle } }: StandardFace): readonly FaceHole[] =>
  Array.from({ length: count }, (_, i) => {
    const clock = Math.PI / 2 - ((i + 0.5) * 2 * Math.PI) / count;
    return {
      id: `B${i + 1}`,
      clock,
      at: { x: clean((circle / 2) * Math.cos(clock)), y: clean((circle / 2) * Math.sin(clock)) },
    };
  });
