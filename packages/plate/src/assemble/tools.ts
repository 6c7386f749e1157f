import { type Thread, hardware, socketRoom } from '@fayplate/handbook';
import type { Draft } from '../draft.js';
import { socketClears } from '../checks/heads.js';
import { fastenOf } from '../treat/holes.js';
import { threadOf } from '../treat/thread.js';
import type { FastenerHead, PlateHole } from '../types.js';
import type { Tool } from './types.js';

/** Hexagon heads that are not as wide as their nut, mm across flats: ASME B18.2.1, from memory. */
const narrowHeads: ReadonlyMap<string, number> = new Map([
  ['7/16', 15.875],
  ['9/16', 20.6375],
]);

/** Across the flats of a hexagon head, mm: as the nut, but for two sizes. */
const headAcross = (thread: Thread): number | null =>
  (thread.form === 'unified' ? narrowHeads.get(thread.size) : undefined) ?? hardware(thread).nut?.acrossFlats ?? null;

/** Diameter that is free about the axis of a nut or head on the plate, mm; null where nothing stands near. */
const roomAbout = (draft: Draft, hole: PlateHole, head: FastenerHead): number | null => {
  if (hole.sink !== null) return hole.sink.diameter;
  const clears = socketClears(draft, hole);
  return clears.length === 0 ? null : head.socket + 2 * Math.min(...clears);
};

/** The tool for what is turned on the plate itself; null where the tables do not have it. */
export const toolOn = (draft: Draft, hole: PlateHole, head: FastenerHead): Tool | null => {
  const thread = threadOf(hole.fastening?.thread ?? null);
  if (thread === null || head.kind === 'countersunk screw') return null;
  const h = hardware(thread);
  const own = hole.part === null ? null : fastenOf(draft.desk, hole.part.face).own;
  const source = draft.made.seatSources.get(hole.id) ?? 'common practice';
  const room = roomAbout(draft, hole, head);
  if (head.kind === 'cap screw')
    return own !== null || h.capScrew === null
      ? null
      : { kind: 'key', size: h.capScrew.key, outside: head.diameter, room, source };
  const size = own?.across ?? h.nut?.acrossFlats ?? null;
  return size === null ? null : { kind: 'wrench', size, outside: head.socket, room, source };
};

/** The tool for a hexagon that is turned from behind the part, where nobody has measured the room. */
export const toolBehind = (hole: PlateHole): Tool | null => {
  const thread = threadOf(hole.fastening?.thread ?? null);
  if (thread === null) return null;
  const nut = hole.fastening?.kind === 'set stud';
  const size = nut ? (hardware(thread).nut?.acrossFlats ?? null) : headAcross(thread);
  if (size === null) return null;
  const socket = socketRoom(size);
  const from = hardware(thread).nut?.source ?? '';
  return {
    kind: 'wrench',
    size,
    outside: socket.diameter,
    room: null,
    source: `${from}; ${socket.source}${nut ? '' : thread.form === 'unified' ? '; ASME B18.2.1, from memory' : ''}`,
  };
};
