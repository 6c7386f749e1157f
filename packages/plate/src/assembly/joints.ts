import type { Joint } from '../types.js';

/**
 * The joints as columns of numbers, for a solver that runs a hundred thousand times: hole (hx, hy) in the plate, pin (px, py)
 * on the part, radial room, the unit vector across a slot (0, 0 for a round hole), and 1 in `hard` where the joint must hold
 * while the others are made as slack as can be.
 */
export interface Columns {
  readonly n: number;
  readonly hx: Float64Array;
  readonly hy: Float64Array;
  readonly px: Float64Array;
  readonly py: Float64Array;
  readonly room: Float64Array;
  readonly ax: Float64Array;
  readonly ay: Float64Array;
  readonly hard: Uint8Array;
}

/** Least room of a locator, mm: one that fits tighter leaves no play, and a nanometre is none. */
const noPlay = 1e-6;

export const leastRoom = (j: Joint): number => (j.role === 'locator' ? Math.max(j.room[0], noPlay) : j.room[0]);
/** The most radial room that a joint leaves, mm; a locator that is tight leaves none. */
export const mostRoom = (j: Joint): number => Math.max(j.room[1], leastRoom(j));

/** Columns with every pin at its nominal place and every hole at its least. */
export const columnsOf = (joints: readonly Joint[]): Columns => ({
  n: joints.length,
  hx: Float64Array.from(joints, (j) => j.plate.x),
  hy: Float64Array.from(joints, (j) => j.plate.y),
  px: Float64Array.from(joints, (j) => j.part.x),
  py: Float64Array.from(joints, (j) => j.part.y),
  room: Float64Array.from(joints, leastRoom),
  ax: Float64Array.from(joints, (j) => (j.along === null ? 0 : -Math.sin(j.along))),
  ay: Float64Array.from(joints, (j) => (j.along === null ? 0 : Math.cos(j.along))),
  hard: new Uint8Array(joints.length),
});

/** The same columns with only some rows. */
export const rowsOf = (c: Columns, keep: (i: number) => boolean): Columns => {
  const at = Array.from({ length: c.n }, (_, i) => i).filter(keep);
  const pick = (a: Float64Array): Float64Array => Float64Array.from(at, (i) => a[i]!);
  return {
    n: at.length,
    hx: pick(c.hx),
    hy: pick(c.hy),
    px: pick(c.px),
    py: pick(c.py),
    room: pick(c.room),
    ax: pick(c.ax),
    ay: pick(c.ay),
    hard: Uint8Array.from(at, (i) => c.hard[i]!),
  };
};
