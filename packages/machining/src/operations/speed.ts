import { feedPerTurn, material, turnsPerMinute } from '@fayplate/handbook';
import type { Operation } from '../types.js';
import { CLEARING, type Cut } from './operation.js';

/** Share of the drill's cutting speed at which each op runs, high-speed steel (common practice). */
const share: Readonly<Record<Operation, number>> = {
  face: 1,
  turn: 1 / 2,
  spot: 1,
  pilot: 1,
  drill: 1,
  mill: 1,
  // A single point that hangs out chatters sooner than a drill.
  bore: 1 / 2,
  ream: 1 / 2,
  counterbore: 1 / 3,
  spotface: 1 / 3,
  countersink: 1 / 3,
  tap: 1 / 4,
  chamfer: 1 / 3,
};

export interface Speed {
  /** rev/min. */
  readonly speed: number | null;
  /** mm/min. */
  readonly feed: number | null;
}

const unknown: Speed = { speed: null, feed: null };

/**
 * Speeds and feeds in a material, never above the machine's top speed: the lower end of the handbook's cutting speeds, since a home shop's machine
 * is seldom stiff. A tool runs at the speed of the largest that it cuts before it is changed. None for a face cutter and for what only clears: their size is
 * the shop's own.
 */
export const speedsFor = (name: string | null, topSpeed: number | null) => {
  const metres = name === null ? null : (material(name)?.speed[0] ?? null);
  return (cut: Cut, widest: number): Speed => {
    if (metres === null || isOfTheShop(cut)) return unknown;
    const speed = Math.max(
      1,
      Math.floor(Math.min(turnsPerMinute(share[cut.op] * metres, widest), topSpeed ?? Infinity)),
    );
    return { speed, feed: speed * perTurn(cut, widest) };
  };
};

/** A cutter whose size is the shop's own to choose. */
const isOfTheShop = (cut: Cut): boolean => cut.op === 'face' || cut.tool === CLEARING;

/** Pilot of a No. 3 centre drill, mm: it is the part that breaks, so it sets the feed (3/32 in, from memory). */
const SPOT_PILOT = 2.38;

/** mm a turn: a tap's pitch; a reamer twice a drill's feed; wide cutters a tenth of a millimetre (common practice). */
const perTurn = (cut: Cut, widest: number): number => {
  if (cut.op === 'tap') return cut.pitch ?? 0;
  if (cut.op === 'ream') return 2 * feedPerTurn(widest);
  if (cut.op === 'spot') return feedPerTurn(SPOT_PILOT);
  return cut.op === 'pilot' || cut.op === 'drill' ? feedPerTurn(widest) : 0.1;
};
