import { byCodeUnit } from '@fayplate/core';
import type { Job } from '@fayplate/job';
import type { Plate, Side } from '@fayplate/plate';
import { boreCuts } from './bore.js';
import { SLOT_SIZE, holeCuts } from './hole.js';
import { type Cut, shopOrder } from './operation.js';
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
      .filter((h) => h.done !== true)
      .flatMap((h) => holeCuts(h, plate, shop, { main, atAssembly: atAssembly && h.feature === null })),
  ];
  const groups = new Map<string, Cut[]>();
  for (const cut of cuts) {
    // A slot is brought to size when both its ends are cut.
    const key = `${cut.side} ${drillLike(cut) ? 'drill' : cut.op} ${cut.tool} ${cut.note === SLOT_SIZE ? SLOT_SIZE : ''}`;
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

/** Where most is sunk, ends blind or is bored, so that as much as can be is cut in one setting; side B where as much is on either. */
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
