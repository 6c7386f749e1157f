import { type Circle, type Point, add, distance, polar } from '@fayplate/core';
import type { Desk } from '../desk.js';
import { farOf } from '../bores/shape.js';
import { edgeLimit } from '../limits.js';
import { hullOfCircles } from '../outline/hull.js';
import { depthInside } from '../outline/inside.js';
import { givenOutline } from '../outline/outline.js';
import { footprintOf } from '../parts/footprint.js';
import type { PlateBore, PlateHole } from '../types.js';

/** Directions tried, degrees apart, and places along each, mm apart. */
const TURN = 2;
const STEP = 2;
/** Least metal round a dowel where the job gives no limit, in diameters. Source: rule of thumb, from memory. */
const WEB = 0.5;

/** What a new dowel must keep off: cuts, nuts and heads of the plate, and what its own part has there. */
const obstacles = (
  desk: Desk,
  index: 0 | 1,
  holes: readonly PlateHole[],
  bores: readonly PlateBore[],
): readonly Circle[] => [
  ...holes.map((h) => ({
    centre: { x: h.x, y: h.y },
    radius:
      Math.max(h.diameter, h.thread?.major ?? 0, h.sink?.diameter ?? 0, h.fastening?.head?.diameter ?? 0) / 2 +
      (h.slot?.length ?? 0) / 2,
  })),
  ...bores.map((b) => ({ centre: { x: b.x, y: b.y }, radius: b.box === undefined ? b.diameter / 2 : farOf(b, b) })),
  ...desk.placed
    .filter((p) => p.face === desk.faces[index] && p.diameter !== null)
    .map((p) => ({ centre: p.at, radius: (p.diameter ?? 0) / 2 })),
];

interface Place {
  readonly at: Point;
  /** mm to spare over all limits. */
  readonly spare: number;
}

/** In every direction the place farthest out that has room; the one with the most room where none has. */
const places = (
  desk: Desk,
  index: 0 | 1,
  diameter: number,
  holes: readonly PlateHole[],
  bores: readonly PlateBore[],
): readonly Place[] => {
  const about = desk.mated[index].centre;
  const round = obstacles(desk, index, holes, bores);
  const web = desk.spec.limits.web ?? WEB * diameter;
  const cuts = round.slice(0, holes.length + bores.length);
  const plate = cuts.length === 0 ? null : hullOfCircles(cuts);
  const given = givenOutline(desk);
  const limit = edgeLimit(desk);
  const edge = limit.unit === 'd' ? limit.value * diameter : limit.value;
  /** Beyond the hull of the cuts the outline adds its margin. */
  const margin = given === null && 'margin' in desk.spec.outline ? (desk.spec.outline.margin ?? 0) : 0;
  const part = footprintOf(desk, index);
  const spareAt = (at: Point): number =>
    Math.min(
      ...round.map((c) => distance(at, c.centre) - c.radius - diameter / 2 - web),
      plate === null ? Infinity : depthInside(at, plate) - Math.max(diameter / 2, given === null ? edge - margin : 0),
      given === null ? Infinity : depthInside(at, given) - edge,
      part.path === null ? Infinity : depthInside(at, part.path) - (part.known ? 1.5 * diameter : diameter / 2),
    );
  const reach = Math.max(0, ...cuts.map((c) => distance(c.centre, about)));
  return Array.from({ length: 360 / TURN }, (_, i) => {
    const tried = Array.from({ length: Math.floor(reach / STEP) + 1 }, (_, k) =>
      add(about, polar(reach - k * STEP, (i * TURN * Math.PI) / 180)),
    ).map((at) => ({ at, spare: spareAt(at) }));
    return (
      tried.find((p) => p.spare >= 0) ??
      tried.reduce((a, b) => (b.spare > a.spare ? b : a), { at: about, spare: -Infinity })
    );
  });
};

/**
 * Where new dowels go: as far apart as the metal of plate and part allows, so that they hold the turn best. Where there
 * is no room for them they come back in the roomiest places, and the checks say what is wrong there.
 */
export const placeNewDowels = (
  desk: Desk,
  index: 0 | 1,
  count: number,
  diameter: number,
  holes: readonly PlateHole[],
  bores: readonly PlateBore[],
): readonly Point[] => {
  const all = places(desk, index, diameter, holes, bores);
  const roomy = all.filter((p) => p.spare >= 0);
  const open =
    roomy.length >= count ? roomy : all.toSorted((a, b) => b.spare - a.spare).slice(0, Math.max(count, roomy.length));
  const chosen: Place[] = [];
  const far = (p: Place): number =>
    chosen.length === 0
      ? Math.max(...open.map((q) => distance(p.at, q.at)))
      : Math.min(...chosen.map((q) => distance(p.at, q.at)));
  while (chosen.length < count && chosen.length < open.length) {
    const left = open.filter((p) => !chosen.includes(p)).map((p) => ({ p, far: far(p) }));
    const [next] = left.toSorted((a, b) => b.far - a.far);
    if (next === undefined) break;
    chosen.push(next.p);
  }
  return chosen.map((p) => p.at);
};
