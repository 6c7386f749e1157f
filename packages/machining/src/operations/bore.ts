import { distance } from '@fayplate/core';
import { type Plate, type PlateBore, type Side, boreLimits, boreSpine, depthLimitsOf } from '@fayplate/plate';
import { CORNER, SIDES } from './hole.js';
import { CLEARING, type Cut, type Ends, RUN_THROUGH, boreEnds, drillDepth, spotAt } from './operation.js';
import { PILOT_ABOVE, type Shop, boringPasses, drillWords } from './shop.js';

/**
 * A recess may stay in the middle as an end mill leaves it, this much wider than a boring bar needs to enter, mm
 * (common practice).
 */
const ROUGHED = 20;

/**
 * Cuts of a bore, recess, pocket, notch or raised spigot. A through bore is drilled as large as the shop drills and
 * bored; a recess that has a through bore about its own centre needs no drill. A through bore is cut on the side that
 * is cut first, with whatever is round it there, so that when the plate has been turned over an indicator in it finds
 * the place again (common practice).
 */
export const boreCuts = (bore: PlateBore, plate: Plate, shop: Shop, first: Side): readonly Cut[] => {
  const side = bore.side === 'through' ? first : bore.side;
  const ends = boreEnds(bore, plate, side);
  const base = { hole: bore.id, at: { x: bore.x, y: bore.y }, side, pitch: null };
  const sizes = { limits: boreLimits(bore), depthLimits: depthLimitsOf(bore) };
  const through = bore.side === 'through' || bore.depth === null;
  const depth = bore.depth ?? plate.thickness;
  if (bore.box !== undefined) return straightCuts(bore, bore.box, base, ends, plate.thickness, shop);
  if (bore.kind === 'spigot')
    return [
      {
        ...base,
        ...sizes,
        op: 'turn',
        tool: 'boring head or rotary table',
        toolDiameter: bore.diameter,
        depth: 0,
        note:
          `raised spigot ${shop.say(bore.diameter)}, ` +
          `${shop.say(depth)} proud of the flat: mill the flat round it first`,
      },
    ];
  const inner = plate.bores
    .filter((b) => b !== bore && b.side === 'through' && b.diameter < bore.diameter)
    .filter((b) => distance(b, bore) < b.diameter / 2);
  const opened = inner.length > 0;
  const start = opened || !through ? [] : starter(bore, base, ends, plate.thickness, shop);
  const solid = !opened && !through && bore.kind === 'recess';
  const from = opened
    ? Math.max(...inner.map((b) => b.diameter))
    : solid
      ? Math.min(ROUGHED, bore.diameter / 2)
      : (start.at(-1)?.toolDiameter ?? 0);
  const end = {
    ...base,
    ...sizes,
    toolDiameter: bore.diameter,
    depth: through ? depth + ends.beyond + RUN_THROUGH : depth,
  };
  const last: Cut =
    bore.kind === 'relief'
      ? { ...end, op: 'mill', tool: CLEARING, note: 'pocket, to clear only' }
      : {
          ...end,
          op: 'bore',
          tool: `boring head to ${shop.say(bore.diameter)}`,
          passes: boringPasses(from, bore.diameter, plate.material?.name ?? null),
          note: solid ? 'from the solid: rough it out with an end mill first' : null,
        };
  return [...start, last];
};

type Base = Pick<Cut, 'hole' | 'at' | 'side' | 'pitch'>;

/**
 * A pocket with straight sides, or a notch: the largest end mill that its corners let in, never as wide as the whole,
 * to each corner's centre and then side by side. One that goes through is drilled first, so that the mill need not
 * plunge; a notch is entered from outside its edge.
 */
const straightCuts = (
  bore: PlateBore,
  box: NonNullable<PlateBore['box']>,
  base: Base,
  ends: Ends,
  thickness: number,
  shop: Shop,
): readonly Cut[] => {
  const whole = Math.min(box.length, box.width);
  const mill = shop.endMill(2 * box.corner < whole - 1e-9 ? 2 * box.corner : whole, 2 * box.corner < whole - 1e-9);
  const depth = bore.depth ?? thickness + RUN_THROUGH;
  const cut = { ...base, op: 'mill', tool: `end mill ${mill.name}`, toolDiameter: mill.diameter, depth } as const;
  const start = bore.depth === null && box.notch !== true ? starter(bore, base, ends, thickness, shop) : [];
  return [
    ...start,
    ...boreSpine(bore).map((at) => ({ ...cut, at, note: CORNER })),
    { ...cut, limits: boreLimits(bore), depthLimits: depthLimitsOf(bore), note: SIDES },
  ];
};

/** A hole to start the boring bar in; none for a recess, whose floor a drill's point would mark. */
const starter = (bore: PlateBore, base: Base, ends: Ends, thickness: number, shop: Shop): readonly Cut[] => {
  const drill = shop.starter(bore.diameter - 2);
  const cut = (op: 'pilot' | 'drill', tool: string, toolDiameter: number, depth: number): Cut => ({
    ...base,
    op,
    tool,
    toolDiameter,
    depth,
    note: null,
  });
  const cuts: Cut[] = [{ ...base, ...spotAt(ends, null) }];
  if (drill.diameter > PILOT_ABOVE) {
    const pilot = shop.pilot(drill.diameter);
    cuts.push(
      cut('pilot', drillWords(pilot.name), pilot.diameter, drillDepth(pilot.diameter, null, thickness + ends.beyond)),
    );
  }
  return [
    ...cuts,
    cut('drill', drillWords(drill.name), drill.diameter, drillDepth(drill.diameter, null, thickness + ends.beyond)),
  ];
};
