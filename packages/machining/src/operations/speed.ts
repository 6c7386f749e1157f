import type { Operation } from '../types.js';
import type { Cut } from './operation.js';

/** Share of the drill's cutting speed at which each op runs, high-speed steel (common practice). */
const share: Readonly<Record<Operation, number>> = {
  spot: 1, pilot: 1, drill: 1, mill: 1, bore: 1, ream: 0.5, counterbore: 1 / 3, spotface: 1 / 3, countersink: 1 / 3, tap: 1 / 4, chamfer: 1 / 3,
};

export interface Speed {
  /** rev/min. */
  readonly speed: number | null;
  /** mm/min. */
  readonly feed: number | null;
}

/** Feed of a drill, mm a turn: 0.012 of its diameter, which lies within the handbooks' bands from 1/8 to 1 in (common practice). */
export const feedPerTurn = (diameter: number): number => 0.012 * diameter;

/** Turns a minute for a surface speed of `metres` a minute at a diameter in mm. */
export const turnsPerMinute = (metres: number, diameter: number): number => (1000 * metres) / (Math.PI * diameter);

/** Speed and feed of a cut from the material's surface speed, m/min, never above the machine's top speed; `widest`: the largest that the tool cuts before it is changed. */
export const speedOf = (cut: Cut, widest: number, metres: number | null, topSpeed: number | null): Speed => {
  if (metres === null || cut.op === 'mill' || cut.op === 'bore') return { speed: null, feed: null };
  const speed = Math.max(1, Math.floor(Math.min(turnsPerMinute(share[cut.op] * metres, widest), topSpeed ?? Infinity)));
  return { speed, feed: speed * perTurn(cut, widest) };
};

const perTurn = (cut: Cut, widest: number): number => {
  if (cut.op === 'tap') return cut.pitch ?? 0;
  if (cut.op === 'ream') return 2 * feedPerTurn(widest);
  return cut.op === 'counterbore' || cut.op === 'spotface' || cut.op === 'countersink' || cut.op === 'chamfer' ? 0.1 : feedPerTurn(widest);
};

export const speedsFor = (_material: string | null, topSpeed: number | null) => {
  const metres = null;
  return (cut: Cut, widest: number): Speed => speedOf(cut, widest, metres, topSpeed);
};
