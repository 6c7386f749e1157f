import { byCodeUnit } from '@fayplate/core';
import { feedPerTurn, material, turnsPerMinute } from '@fayplate/handbook';
import type { Job } from '@fayplate/job';
import type { Plate, Side } from '@fayplate/plate';
import { isReamedLater } from '../checks/places.js';
import type { Operation } from '../types.js';
import { boreCuts } from './bore.js';
import { SIDES, SLOT_SIZE, holeCuts } from './hole.js';
import { CLEARING, type Cut, shopOrder } from './operation.js';
import type { Shop } from './shop.js';

/** The cuts that one tool takes before it is changed. */
export interface ToolGroup {
  readonly side: Side;
  readonly tool: string;
  readonly cuts: readonly Cut[];
}

/** Every cut of the plate, grouped by side and tool in shop order; within a tool in the plate's own order of holes. */
export const planCuts = (plate: Plate, job: Job, shop: Shop): readonly ToolGroup[] => {
  const atAssembly = [...(job.plate?.locate.values() ?? [])].some((l) => l.as === 'new dowels');
  const main = mainSide(plate);
  const first = firstSide(plate, main);
  const cuts = [
    ...plate.bores.filter((b) => b.done !== true).flatMap((b) => boreCuts(b, plate, shop, first)),
    ...plate.holes
      // In the piece that takes them, dowel holes are drilled and reamed through the other piece.
      .filter((h) => h.done !== true && !(plate.joint?.takes === true && isReamedLater(h)))
      .flatMap((h) => holeCuts(h, plate, shop, { main, atAssembly: atAssembly && h.feature === null })),
  ];
  const groups = new Map<string, Cut[]>();
  for (const cut of cuts) {
    // A slot is brought to size when both its ends are cut.
    const key =
      `${cut.side} ${drillLike(cut) ? 'drill' : cut.op} ${cut.tool} ` +
      (cut.note === SLOT_SIZE || cut.note === SIDES ? cut.note : '');
    groups.set(key, [...(groups.get(key) ?? []), cut]);
  }
  const sides: readonly Side[] = first === 'A' ? ['A', 'B'] : ['B', 'A'];
  return [...groups.values()]
    .flatMap((group) => (group[0] === undefined ? [] : [{ side: group[0].side, tool: group[0].tool, cuts: group }]))
    .sort(
      (a, b) =>
        sides.indexOf(a.side) - sides.indexOf(b.side) ||
        stage(a.cuts) - stage(b.cuts) ||
        widest(a.cuts) - widest(b.cuts) ||
        byCodeUnit(a.tool, b.tool),
    );
};

/** A drill serves as pilot for one hole and for size in another without being changed. */
const drillLike = (cut: Cut): boolean => cut.op === 'pilot' || cut.op === 'drill';
const stage = (cuts: readonly Cut[]): number => Math.min(...cuts.map((c) => shopOrder.indexOf(c.op)));
const widest = (cuts: readonly Cut[]): number => Math.max(...cuts.map((c) => c.toolDiameter));

/** Side that is cut first. */
export const sideCutFirst = (plate: Plate): Side => firstSide(plate, mainSide(plate));

/**
 * Where most is sunk, ends blind or is bored, so that as much as can be is cut in one setting; side B where as much is
 * on either.
 */
const mainSide = (plate: Plate): Side => {
  const tied = (side: Side): number =>
    plate.holes.filter((h) => h.sink?.side === side || (h.depth !== null && h.from === side)).length +
    plate.bores.filter((b) => b.side === side).length;
  return tied('A') > tied('B') ? 'A' : 'B';
};

/** A side with a raised spigot, for it gives the flat; else the main side. */
const firstSide = (plate: Plate, main: Side): Side => {
  const raised = plate.bores.filter((b) => b.kind === 'spigot').map((b) => b.side);
  return raised.includes(main) || raised.length === 0 ? main : raised.includes('A') ? 'A' : 'B';
};

/** Share of the drill's cutting speed at which each op runs, high-speed steel (common practice). */
const share: Readonly<Record<Operation, number>> = {
  face: 1,
  turn: 1 / 2,
  spot: 1,
  pilot: 1,
  drill: 1,
  mill: 1,
  // A single-point tool that hangs out chatters before a drill does.
  bore: 1 / 2,
  ream: 1 / 2,
  counterbore: 1 / 3,
  spotface: 1 / 3,
  countersink: 1 / 3,
  tap: 1 / 4,
  chamfer: 1 / 3,
};

interface Speed {
  /** rev/min. */
  readonly speed: number | null;
  /** mm/min. */
  readonly feed: number | null;
}

const unknown: Speed = { speed: null, feed: null };

/**
 * Speeds and feeds in a material, never above the machine's top speed: the lower end of the handbook's cutting speeds,
 * since a home shop's machine is seldom stiff. A tool runs at the speed of the largest that it cuts before it is
 * changed. None for a face cutter and for what only clears: their size is the shop's own.
 */
export const speedsFor = (name: string | null, topSpeed: number | null) => {
  const metres = name === null ? null : (material(name)?.speed[0] ?? null);
  return (cut: Pick<Cut, 'op' | 'tool' | 'toolDiameter'> & Partial<Cut>, widest: number): Speed => {
    if (metres === null || isOfTheShop(cut)) return unknown;
    const speed = Math.max(
      1,
      Math.floor(Math.min(turnsPerMinute(share[cut.op] * metres, widest), topSpeed ?? Infinity)),
    );
    return { speed, feed: speed * perTurn(cut, widest) };
  };
};

/** A cutter whose size is the shop's own to choose. */
const isOfTheShop = (cut: Pick<Cut, 'op' | 'tool'>): boolean => cut.op === 'face' || cut.tool === CLEARING;

/** Pilot of a No. 3 centre drill, mm: it is the part that breaks, so it sets the feed (3/32 in, from memory). */
const SPOT_PILOT = 2.38;

/** mm a turn: a tap's pitch; a reamer twice a drill's feed; wide cutters a tenth of a millimetre (common practice). */
const perTurn = (cut: Pick<Cut, 'op'> & Partial<Cut>, widest: number): number => {
  if (cut.op === 'tap') return cut.pitch ?? 0;
  if (cut.op === 'ream') return 2 * feedPerTurn(widest);
  if (cut.op === 'spot') return feedPerTurn(SPOT_PILOT);
  return cut.op === 'pilot' || cut.op === 'drill' ? feedPerTurn(widest) : 0.1;
};
