import type { Plate, PlateHole, Side } from '@fayplate/plate';
import { drillDepth, endDepth } from './depth.js';
import { type Cut, SPOT } from './operation.js';
import { PILOT_ABOVE, type Shop, drillWords, pilotFor, reamAllowance } from './shop.js';

export interface HoleSetting {
  /** Side that through holes are drilled from: all from one, so that one setting of the origin places both patterns. */
  readonly main: Side;
  /** A dowel hole that is reamed once the shafts are in line. */
  readonly atAssembly: boolean;
}

/** Cuts of one hole, in the order they are taken. */
export const holeCuts = (hole: PlateHole, plate: Plate, shop: Shop, { main, atAssembly }: HoleSetting): readonly Cut[] => {
  const side = hole.depth === null ? main : hole.from;
  const base = { hole: hole.id, at: { x: hole.x, y: hole.y }, side, pitch: null, note: null };
  const through = endDepth(hole.depth, plate.thickness);
  const cuts: Cut[] = [];
  const places = hole.slot === null ? [base.at] : slotEnds(hole);
  for (const at of places) {
    const end = { ...base, at, note: hole.slot === null ? null : SLOT_END };
    cuts.push({ ...end, ...SPOT }, ...drilled(end, hole, plate, shop));
  }
  if (hole.slot !== null) {
    const size = hole.diameter;
    cuts.push({ ...base, op: 'mill', tool: `end mill ${shop.sold(size)}`, toolDiameter: size, depth: through, note: `${shop.say(hole.slot.length)} between end centres` });
  } else if (hole.as === 'dowel') {
    const note = atAssembly ? 'at assembly, through both parts, once they stand true' : null;
    cuts.push({ ...base, op: 'ream', tool: `reamer ${shop.sold(hole.diameter)}`, toolDiameter: hole.diameter, depth: through, note });
  }
  cuts.push(...sunk(hole, base, shop), ...threaded(hole, base, plate.thickness));
  return hole.sink?.side === side || hole.slot !== null ? cuts : [...cuts, chamfer(hole, base, shop)];
};

/** Note on the cuts at either end of a slot, whose places are not the hole's own. */
export const SLOT_END = 'slot end';

type Base = Pick<Cut, 'hole' | 'at' | 'side' | 'pitch' | 'note'>;

/** Drilled to size, under size where a reamer or end mill follows; with a pilot for a large drill; above the largest drill, bored. */
const drilled = (base: Base, hole: PlateHole, plate: Plate, shop: Shop): readonly Cut[] => {
  const followed = hole.as === 'dowel' || hole.slot !== null;
  const size = followed ? hole.diameter - reamAllowance(hole.diameter) : hole.diameter;
  const bored = size > shop.largestDrill && !followed;
  const drill = bored || followed ? shop.drill(Math.min(size, shop.largestDrill), 'at most') : { name: hole.drill ?? shop.say(size), diameter: size };
  const cut = (op: 'pilot' | 'drill', d: number, name: string): Cut => ({ ...base, op, tool: drillWords(name), toolDiameter: d, depth: drillDepth(d, hole.depth, plate.thickness) });
  const cuts: Cut[] = [];
  if (drill.diameter > PILOT_ABOVE) {
    const pilot = shop.drill(pilotFor(drill.diameter));
    cuts.push(cut('pilot', pilot.diameter, pilot.name));
  }
  cuts.push(cut('drill', drill.diameter, drill.name));
  if (bored) cuts.push({ ...base, op: 'bore', tool: `boring head to ${shop.say(size)}`, toolDiameter: size, depth: endDepth(hole.depth, plate.thickness) });
  return cuts;
};

const sunk = (hole: PlateHole, base: Base, shop: Shop): readonly Cut[] => {
  const { sink } = hole;
  if (sink === null) return [];
  const side: Side = sink.side;
  if (sink.kind === 'countersunk') return [{ ...base, side, op: 'countersink', ...cone(sink.diameter, shop) }];
  const op = sink.kind === 'counterbored' ? 'counterbore' : 'spotface';
  return [{ ...base, side, op, tool: `counterbore ${shop.sold(sink.diameter)}`, toolDiameter: sink.diameter, depth: sink.depth }];
};

const threaded = (hole: PlateHole, base: Base, thickness: number): readonly Cut[] => {
  const { thread } = hole;
  if (thread === null) return [];
  const depth = thread.depth ?? (hole.depth === null ? thickness + 4 * thread.pitch : hole.depth);
  const note = hole.depth !== null && thread.depth !== null ? 'plug tap last' : null;
  return [{ ...base, op: 'tap', tool: `tap ${thread.name}`, toolDiameter: thread.major, depth, pitch: thread.pitch, note }];
};

/** A 90° cone that opens a hole to `wide` at the face: its sharp point then lies half of that below. */
const cone = (wide: number, shop: Shop): Pick<Cut, 'tool' | 'toolDiameter' | 'depth' | 'note'> => ({
  tool: 'countersink 90°',
  toolDiameter: wide,
  depth: wide / 2,
  note: `to ⌀ ${shop.say(wide)}`,
});

/** Breaks the edge by half a millimetre, a tapped hole's to its thread's major diameter. */
const chamfer = (hole: PlateHole, base: Base, shop: Shop): Cut => ({ ...base, op: 'chamfer', ...cone(Math.max(hole.diameter + 1, hole.thread?.major ?? 0), shop) });

const slotEnds = (hole: PlateHole): readonly Cut['at'][] => {
  const { length, angle } = hole.slot ?? { length: 0, angle: 0 };
  const dx = (length / 2) * Math.cos(angle);
  const dy = (length / 2) * Math.sin(angle);
  return [
    { x: hole.x - dx, y: hole.y - dy },
    { x: hole.x + dx, y: hole.y + dy },
  ];
};
