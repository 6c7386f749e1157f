import { type Point, centroid, heading, subtract } from '@fayplate/core';
import { type Thread, hardware, socketRoom } from '@fayplate/handbook';
import { SLACK } from '../checks/check.js';
import { socketClears } from '../checks/sockets.js';
import { endMeets, featureOf, grip, isStud, mostStanding } from '../checks/studs.js';
import type { Placed } from '../desk.js';
import type { Draft } from '../draft.js';
import { fastenOf } from '../treat/holes.js';
import { studNeeds } from '../treat/sink.js';
import { roundUp, threadOf } from '../treat/thread.js';
import type { FastenerHead, PlateHole } from '../types.js';
import type { StudLength, Tool } from './types.js';

/** Hexagon heads that are not as wide as their nut, mm across flats: ASME B18.2.1, from memory. */
const narrowHeads: ReadonlyMap<string, number> = new Map([
  ['7/16', 15.875],
  ['9/16', 20.6375],
]);

/** Across the flats of a hexagon head, mm: as the nut, except in two sizes. */
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

/** A length that a hacksaw and a rule can be set to, at most this: 0.5 mm, 1/32 in. */
const roundDown = (mm: number, unit: 'mm' | 'in'): number => {
  const step = unit === 'in' ? 25.4 / 32 : 0.5;
  return Math.floor(mm / step + SLACK) * step;
};

const lengthOf = (draft: Draft, hole: PlateHole, p: Placed): StudLength => {
  const thread = threadOf(hole.fastening?.thread ?? null);
  const needs = thread === null ? null : studNeeds(thread, fastenOf(draft.desk, p.face.name));
  const least = needs === null ? null : grip(draft, hole, p) + needs;
  const most = endMeets(draft, hole, p) === 'no' ? null : mostStanding(draft, hole, p);
  const { stands } = p.feature;
  const own = { face: p.face.name, feature: p.feature.id, hole: hole.id, stands, least, most };
  const { units } = draft.desk.job;
  if (least !== null && most !== null && least > most + SLACK) return { ...own, asks: 'conflict', to: null };
  if (stands === null) return { ...own, asks: 'measure', to: null };
  if (most !== null && stands > most + SLACK) {
    const to = roundDown(most, units);
    return { ...own, asks: 'shorten', to: least !== null && to < least ? most : to };
  }
  if (least !== null && stands < least - SLACK) {
    const to = roundUp(least, units);
    return { ...own, asks: 'replace', to: most !== null && to > most ? least : to };
  }
  return { ...own, asks: 'nothing', to: null };
};

/** Every stud that passes the plate, with the length that its nut needs and that the other part leaves. */
export const studLengths = (draft: Draft): readonly StudLength[] =>
  draft.holes.flatMap((hole) => {
    const p = featureOf(draft, hole);
    return p === null || !isStud(hole, p) ? [] : [lengthOf(draft, hole, p)];
  });

/** Two spacings nearer than this are one, radians: well below what matters for a wrench. */
const SAME = 0.02;

const apart = (a: number, b: number): number => Math.abs(Math.atan2(Math.sin(a - b), Math.cos(a - b)));

/** Compares lists of spacings, the nearest first: negative where the first list is the wider. */
const widerFirst = (a: readonly number[], b: readonly number[]): number => {
  const i = a.findIndex((v, k) => Math.abs(v - (b[k] ?? 0)) > SAME);
  return i < 0 ? 0 : (b[i] ?? 0) - (a[i] ?? 0);
};

/**
 * The order in which fasteners round a joint are tightened: the first, the one across from it, then always the one
 * that is farthest from all that are tight. On a circle of 4, 8, 12 or 16 it is the star pattern of ASME PCC-1.
 * `places` in any order; returns indexes into them.
 */
export const crosswise = (places: readonly Point[]): readonly number[] => {
  const centre = centroid(places);
  const angles = places.map((p) => heading(subtract(p, centre)));
  const between = (i: number, j: number): number => apart(angles[i] ?? 0, angles[j] ?? 0);
  const across = (i: number): number => angles.findIndex((_, j) => Math.abs(between(i, j) - Math.PI) < SAME);
  const left = new Set(places.keys());
  const order: number[] = [];
  while (left.size > 0) {
    const last = order.at(-1);
    const opposite = last === undefined ? -1 : across(last);
    const spacings = (i: number): readonly number[] => order.map((j) => between(i, j)).sort((a, b) => a - b);
    // Where nothing lies opposite (an odd number), of those as far from the rest the one farthest from the last.
    const fromLast = (i: number): number => (last === undefined || opposite >= 0 ? 0 : between(i, last));
    const [widest] = [...left].sort(
      (a, b) => widerFirst(spacings(a), spacings(b)) || widerFirst([fromLast(a)], [fromLast(b)]),
    );
    const next = left.has(opposite) ? opposite : (widest ?? 0);
    order.push(next);
    left.delete(next);
  }
  return order;
};
