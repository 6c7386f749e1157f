import { distance } from '@fayplate/core';
import type { Plate, PlateBore, Side } from '@fayplate/plate';
import { type Ends, RUN_THROUGH, boreEnds, drillDepth } from './depth.js';
import { type Cut, spotAt } from './operation.js';
import { PILOT_ABOVE, type Shop, drillWords, pilotFor } from './shop.js';

/**
 * Cuts of a bore, recess or raised spigot. A through bore is drilled as large as the shop drills and bored; a recess that has a through bore about
 * its own centre needs no drill. A through bore is cut on the side that is cut first, with whatever is round it there, so that when the plate has
 * been turned over an indicator in it finds the place again (common practice).
 */
export const boreCuts = (bore: PlateBore, plate: Plate, shop: Shop, first: Side): readonly Cut[] => {
  const side = bore.side === 'through' ? first : bore.side;
  const ends = boreEnds(bore, plate, side);
  const base = { hole: bore.id, at: { x: bore.x, y: bore.y }, side, pitch: null };
  const limits = bore.limits === null ? null : `${shop.say(bore.limits[0])} to ${shop.say(bore.limits[1])}`;
  const through = bore.side === 'through' || bore.depth === null;
  const depth = bore.depth ?? plate.thickness;
  if (bore.kind === 'spigot')
    return [
      {
        ...base,
        op: 'turn',
        tool: 'boring head or rotary table',
        toolDiameter: bore.diameter,
        depth: 0,
        note: words(`raised spigot ${shop.say(bore.diameter)}, ${shop.say(depth)} proud of the flat`, limits),
      },
    ];
  const opened = plate.bores.some(
    (b) => b !== bore && b.side === 'through' && b.diameter < bore.diameter && distance(b, bore) < b.diameter / 2,
  );
  const start = opened || !through ? [] : starter(bore, base, ends, plate.thickness, shop);
  const roughed =
    !opened && !through && bore.kind === 'recess' ? 'from the solid: rough it out with an end mill first' : null;
  const size = {
    op: bore.kind === 'relief' ? 'mill' : 'bore',
    tool: bore.kind === 'relief' ? 'end mill, to clear' : `boring head to ${shop.say(bore.diameter)}`,
    toolDiameter: bore.diameter,
  } as const;
  return [
    ...start,
    {
      ...base,
      ...size,
      depth: through ? depth + ends.beyond + RUN_THROUGH : depth,
      note: words(bore.kind === 'relief' ? 'pocket, to clear only' : roughed, limits),
    },
  ];
};

type Base = Pick<Cut, 'hole' | 'at' | 'side' | 'pitch'>;

const words = (...parts: readonly (string | null)[]): string | null =>
  parts.filter((p) => p !== null).join('; ') || null;

/** A hole to start the boring bar in; none for a recess, whose floor a drill's point would mark. */
const starter = (bore: PlateBore, base: Base, ends: Ends, thickness: number, shop: Shop): readonly Cut[] => {
  const drill = shop.drill(Math.min(shop.largestDrill, bore.diameter - 2), 'at most');
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
    const pilot = shop.drill(pilotFor(drill.diameter));
    cuts.push(
      cut('pilot', drillWords(pilot.name), pilot.diameter, drillDepth(pilot.diameter, null, thickness + ends.beyond)),
    );
  }
  return [
    ...cuts,
    cut('drill', drillWords(drill.name), drill.diameter, drillDepth(drill.diameter, null, thickness + ends.beyond)),
  ];
};
