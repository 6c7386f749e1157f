import { distance } from '@fayplate/core';
import type { Plate, PlateBore, Side } from '@fayplate/plate';
import { RUN_THROUGH, drillDepth } from './depth.js';
import { type Cut, SPOT } from './operation.js';
import { PILOT_ABOVE, type Shop, drillWords, pilotFor } from './shop.js';

/**
 * Cuts of a bore, recess or raised spigot. A through bore is drilled as large as the shop drills and bored; a recess that has a through bore about
 * its own centre needs no drill. One set-up for bore and register keeps them concentric: where one side has a register, both are cut there.
 */
export const boreCuts = (bore: PlateBore, plate: Plate, shop: Shop, main: Side): readonly Cut[] => {
  const side = bore.side === 'through' ? sideOfThrough(bore, plate, main) : bore.side;
  const base = { hole: bore.id, at: { x: bore.x, y: bore.y }, side, pitch: null };
  const limits = bore.limits === null ? null : `${shop.say(bore.limits[0])} to ${shop.say(bore.limits[1])}`;
  const depth = bore.depth ?? plate.thickness;
  if (bore.kind === 'spigot')
    return [{ ...base, op: 'turn', tool: 'boring head or rotary table', toolDiameter: bore.diameter, depth: 0, note: words(`raised spigot ${shop.say(bore.diameter)}, ${shop.say(depth)} proud of the flat`, limits) }];
  const opened = plate.bores.some((b) => b !== bore && b.side === 'through' && b.diameter < bore.diameter && distance(b, bore) < b.diameter / 2);
  const start = opened ? [] : starter(bore, base, plate, shop);
  const size = { op: bore.kind === 'relief' ? 'mill' : 'bore', tool: bore.kind === 'relief' ? 'end mill, to clear' : `boring head to ${shop.say(bore.diameter)}`, toolDiameter: bore.diameter } as const;
  return [...start, { ...base, ...size, depth: bore.side === 'through' ? depth + RUN_THROUGH : depth, note: words(bore.kind === 'relief' ? 'pocket, to clear only' : null, limits) }];
};

type Base = Pick<Cut, 'hole' | 'at' | 'side' | 'pitch'>;

const words = (...parts: readonly (string | null)[]): string | null => parts.filter((p) => p !== null).join('; ') || null;

/** A through bore is cut with the other through holes, unless a register about its centre lies on the other side only. */
const sideOfThrough = (bore: PlateBore, plate: Plate, main: Side): Side => {
  const sides = plate.bores.filter((b) => b.kind === 'recess' && distance(b, bore) < 1e-6).map((b) => b.side);
  const other: Side = main === 'B' ? 'A' : 'B';
  return sides.includes(other) && !sides.includes(main) ? other : main;
};

/** A hole to start the boring bar in; none for a recess, whose floor a drill's point would mark. */
const starter = (bore: PlateBore, base: Base, plate: Plate, shop: Shop): readonly Cut[] => {
  if (bore.side !== 'through') return [];
  const drill = shop.drill(Math.min(shop.largestDrill, bore.diameter - 2), 'at most');
  const cut = (op: 'spot' | 'pilot' | 'drill', tool: string, toolDiameter: number, depth: number): Cut => ({ ...base, op, tool, toolDiameter, depth, note: null });
  const cuts = [cut('spot', SPOT.tool, SPOT.toolDiameter, SPOT.depth)];
  if (drill.diameter > PILOT_ABOVE) {
    const pilot = shop.drill(pilotFor(drill.diameter));
    cuts.push(cut('pilot', drillWords(pilot.name), pilot.diameter, drillDepth(pilot.diameter, null, plate.thickness)));
  }
  return [...cuts, cut('drill', drillWords(drill.name), drill.diameter, drillDepth(drill.diameter, null, plate.thickness))];
};
