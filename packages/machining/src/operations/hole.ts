import type { Tool } from '@fayplate/job';
import { type Plate, type PlateHole, type Side, withPitch } from '@fayplate/plate';
import { type Base, chamfer, sunk } from './mouth.js';
import { type Cut, type Ends, drillDepth, endDepth, endsOf, holeLimits, spotAt } from './operation.js';
import { PILOT_ABOVE, type Shop, boringPasses, drillWords, reamAllowance } from './shop.js';

interface HoleSetting {
  /** Side that through holes are drilled from: all from one, so that one setting of the origin places both patterns. */
  readonly main: Side;
  /** A dowel hole that is reamed once the shafts are in line. */
  readonly atAssembly: boolean;
}

/** Cuts of one hole, in the order they are taken. */
export const holeCuts = (
  hole: PlateHole,
  plate: Plate,
  shop: Shop,
  { main, atAssembly }: HoleSetting,
): readonly Cut[] => {
  const side = hole.depth === null ? main : hole.from;
  const base = { hole: hole.id, at: { x: hole.x, y: hole.y }, side, pitch: null, note: null };
  const ends = endsOf(hole.land, side, plate.thickness);
  const span: Span = {
    deep: hole.depth === null ? null : ends.mouth + hole.depth,
    thickness: plate.thickness + ends.beyond,
  };
  const through = endDepth(span.deep, span.thickness);
  const cuts: Cut[] = [];
  for (const at of places(hole, base, shop)) {
    const end = { ...base, at, note: hole.slot === null || at === base.at ? null : SLOT_END };
    cuts.push({ ...end, ...spotAt(ends, end.note) }, ...drilled(end, hole, span, shop));
  }
  if (hole.slot !== null) cuts.push(...slotCuts(hole, base, through, shop));
  else if (hole.as === 'dowel')
    cuts.push(sized(hole, base, { through, bored: !shop.hasReamer(hole.diameter) }, atAssembly, plate, shop));
  cuts.push(...sunk(hole, base, plate, shop));
  if (hole.sink?.side !== side && hole.slot === null) cuts.push(chamfer(hole, base, ends.mouth, shop));
  return [...cuts, ...threaded(hole, base, ends, plate.thickness)];
};

/**
 * A slot is milled with the size below its width, end to end along its middle, and brought to size flank by flank: a
 * cutter of the slot's own width cuts over size, and not straight (common practice).
 */
const slotCuts = (hole: PlateHole, base: Base, depth: number, shop: Shop): readonly Cut[] => {
  const mill = shop.endMill(hole.diameter);
  const cut = { ...base, op: 'mill', tool: `end mill ${mill.name}`, toolDiameter: mill.diameter, depth } as const;
  return [
    ...slotEnds(hole).map((at) => ({ ...cut, at, note: SLOT_END })),
    { ...cut, limits: holeLimits(hole), note: SLOT_SIZE },
  ];
};

/** A dowel's hole: reamed, or bored where there is no reamer of its size. */
const sized = (
  hole: PlateHole,
  base: Base,
  { through, bored }: { readonly through: number; readonly bored: boolean },
  atAssembly: boolean,
  plate: Plate,
  shop: Shop,
): Cut => {
  const end = { ...base, toolDiameter: hole.diameter, limits: holeLimits(hole), note: atAssembly ? AT_ASSEMBLY : null };
  return bored
    ? {
        ...end,
        op: 'bore',
        tool: `boring head to ${shop.sold(hole.diameter)}`,
        depth: through,
        passes: boringPasses(underSize(hole, shop).diameter, hole.diameter, plate.material?.name ?? null),
      }
    : {
        ...end,
        op: 'ream',
        tool: `${shop.sold(hole.diameter)} reamer`,
        depth: hole.depth === null ? through + REAMER_LEAD : through,
      };
};

/**
 * How much farther a reamer runs through than a tool that cuts to size at its very end, mm: its lead (common practice).
 */
const REAMER_LEAD = 2;

/** Note on the cuts at either end of a slot, whose places are not the hole's own. */
export const SLOT_END = 'slot end';

/** Note on the cut that brings a slot to its width. */
export const SLOT_SIZE = 'to size, flank by flank';

/**
 * Notes on a pocket with straight sides and on a notch: on the places of its corners' centres, and on the cut that
 * brings it to size.
 */
export const CORNER = 'corner';
export const SIDES = 'to size, side by side, to clear only';

/** Note on what is not cut with the rest of the plate. */
export const AT_ASSEMBLY = 'at assembly, through both parts, once they stand true';

/** Full-diameter depth below the flat, null where it goes through, and how far down the metal goes there, mm. */
interface Span {
  readonly deep: number | null;
  readonly thickness: number;
}

/**
 * Where a hole is drilled: a slot at both ends, or once in its middle where a second drill would run into the first
 * hole and wander (common practice).
 */
const places = (hole: PlateHole, base: Base, shop: Shop): readonly Cut['at'][] =>
  hole.slot === null || hole.slot.length <= underSize(hole, shop).diameter ? [base.at] : slotEnds(hole);

/** The drill that leaves metal for a reamer or an end mill. */
const underSize = (hole: PlateHole, shop: Shop): Tool => {
  const size = hole.slot === null ? hole.diameter - reamAllowance(hole.diameter) : shop.endMill(hole.diameter).diameter;
  return size > shop.largestDrill ? shop.starter(size) : shop.drill(size, 'at most');
};

/**
 * Drilled to size, under size where a reamer or end mill follows; with a pilot for a large drill; above the largest
 * drill, bored.
 */
const drilled = (base: Base, hole: PlateHole, { deep, thickness }: Span, shop: Shop): readonly Cut[] => {
  const followed = hole.as === 'dowel' || hole.slot !== null;
  const size = hole.diameter;
  const bored = size > shop.largestDrill && !followed;
  const drill = followed
    ? underSize(hole, shop)
    : bored
      ? shop.starter(size - 2)
      : { name: hole.drill ?? shop.say(size), diameter: size };
  const cut = (op: 'pilot' | 'drill', d: number, name: string): Cut => ({
    ...base,
    op,
    tool: drillWords(name),
    toolDiameter: d,
    depth: drillDepth(d, deep, thickness),
  });
  const cuts: Cut[] = [];
  if (drill.diameter > PILOT_ABOVE) {
    const pilot = shop.pilot(drill.diameter);
    cuts.push(cut('pilot', pilot.diameter, pilot.name));
  }
  cuts.push(cut('drill', drill.diameter, drill.name));
  if (bored)
    cuts.push({
      ...base,
      op: 'bore',
      tool: `boring head to ${shop.say(size)}`,
      toolDiameter: size,
      depth: endDepth(deep, thickness),
      limits: hole.limits,
      passes: boringPasses(drill.diameter, size, null),
    });
  return cuts;
};

/**
 * Chamfer at the end of the last tap into a blind hole, in pitches: a thread and a half. Source: a machinists'
 * handbook, 26th edition, bottoming taps; read as quoted.
 */
const TAP_END = 1.5;

const threaded = (hole: PlateHole, base: Base, ends: Ends, thickness: number): readonly Cut[] => {
  const { thread } = hole;
  if (thread === null) return [];
  const blind =
    hole.depth === null ? null : Math.min(hole.depth, (thread.depth ?? hole.depth) + TAP_END * thread.pitch);
  const depth = blind === null ? thickness + ends.beyond + 4 * thread.pitch : ends.mouth + blind;
  const note = hole.depth !== null && thread.depth !== null ? 'by hand, bottoming (plug) tap last' : 'by hand';
  return [
    {
      ...base,
      op: 'tap',
      tool: `tap ${withPitch(thread.name, thread.pitch)}${hole.insert === undefined ? '' : ' for wire inserts'}`,
      toolDiameter: thread.major,
      depth,
      pitch: thread.pitch,
      note,
    },
  ];
};

const slotEnds = (hole: PlateHole): readonly Cut['at'][] => {
  const { length, angle } = hole.slot ?? { length: 0, angle: 0 };
  const dx = (length / 2) * Math.cos(angle);
  const dy = (length / 2) * Math.sin(angle);
  return [
    { x: hole.x - dx, y: hole.y - dy },
    { x: hole.x + dx, y: hole.y + dy },
  ];
};
