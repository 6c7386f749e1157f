import {
  type Motion,
  type Point,
  apply,
  compose,
  distance,
  flipX,
  heading,
  identity,
  rotation,
  subtract,
  translation,
} from '@fayplate/core';
import type { Plate } from '@fayplate/plate';

/** How near a place must lie to a designed hole to be taken for it, mm: a punch mark wanders half a millimetre. */
const NEAR = 1;

/**
 * The measured places under other names: which hole of the plate each one really is, where the whole set lies on the
 * design though not hole for hole, as when someone counts from another hole or the other way round. Null where the
 * names fit as they are, or where no renaming fits. `mirrorToo`: the hand is not known.
 */
export const renumbering = (
  ids: readonly string[],
  points: readonly Point[],
  plate: Plate,
  mirrorToo: boolean,
): ReadonlyMap<string, string> | null => {
  const names = namesFor(ids, points, plate, mirrorToo ? [identity, flipX] : [identity]);
  return names === null || [...names].every(([read, is]) => read === is) ? null : names;
};

/**
 * Whether the places would serve in a mirror as well, under whatever names: then it does not matter which of the two
 * was drilled.
 */
export const servesMirrored = (ids: readonly string[], points: readonly Point[], plate: Plate): boolean =>
  ids.length < 3 || namesFor(ids, points, plate, [flipX]) !== null;

const namesFor = (
  ids: readonly string[],
  points: readonly Point[],
  plate: Plate,
  flips: readonly Motion[],
): ReadonlyMap<string, string> | null => {
  const kinds = kindsOf(plate);
  const designed = new Map([...plate.holes, ...plate.bores].map((h): [string, Point] => [h.id, { x: h.x, y: h.y }]));
  const lead = farthest(points);
  if (lead === null || ids.length < 3) return null;
  const [i, j] = lead;
  const ways: Way[] = [];
  for (const flip of flips) {
    const shape = points.map((p) => apply(flip, p));
    const [a, b] = [shape[i] ?? { x: 0, y: 0 }, shape[j] ?? { x: 0, y: 0 }];
    for (const [c, from] of designed) {
      for (const [d, to] of designed) {
        if (
          c === d ||
          kinds.get(c) !== kinds.get(ids[i] ?? '') ||
          kinds.get(d) !== kinds.get(ids[j] ?? '') ||
          Math.abs(distance(a, b) - distance(from, to)) > NEAR
        )
          continue;
        const found = matched(ids, shape, onto(a, b, from, to), designed, kinds);
        if (found !== null) ways.push(found);
      }
    }
  }
  return plainest(ways);
};

/** A set of names under which every place lies near its hole, and the sum of the squares of what they are off, mm². */
interface Way {
  readonly names: ReadonlyMap<string, string>;
  readonly error: number;
}

/** How much worse a way may fit and still be taken for alike, mm²: a fifth of a millimetre at one hole. */
const ALIKE = 0.04;

/**
 * Of the ways that fit alike the one that leaves most names as they are: a plate is more often read right in part than
 * wrong throughout.
 */
const plainest = (ways: readonly Way[]): ReadonlyMap<string, string> | null => {
  const least = Math.min(...ways.map((w) => w.error));
  const kept = ({ names }: Way): number => [...names].filter(([read, is]) => read === is).length;
  const [best] = ways
    .filter((w) => w.error <= least + ALIKE)
    .toSorted((a, b) => kept(b) - kept(a) || a.error - b.error);
  return best?.names ?? null;
};

/** Holes that may stand for each other: alike in treatment, size and sinking, whichever part they are for. */
const kindsOf = (plate: Plate): ReadonlyMap<string, string> =>
  new Map([
    ...plate.holes.map((h): [string, string] => [
      h.id,
      `${h.as} ${h.diameter.toFixed(2)} ${h.depth ?? ''} ${h.thread?.name ?? ''} ` +
        (h.sink === null ? '' : `${h.sink.kind} ${h.sink.diameter} ${h.sink.side}`),
    ]),
    ...plate.bores.map((b): [string, string] => [b.id, b.id]),
  ]);

const farthest = (points: readonly Point[]): readonly [number, number] | null => {
  let best: readonly [number, number] | null = null;
  let span = 0;
  for (const [i, p] of points.entries()) {
    for (const [j, q] of points.entries()) {
      if (j > i && distance(p, q) > span) {
        span = distance(p, q);
        best = [i, j];
      }
    }
  }
  return best;
};

/** The motion that lays a on c and points b towards d, their middles together. */
export const onto = (a: Point, b: Point, c: Point, d: Point): Motion => {
  const turn = rotation(heading(subtract(d, c)) - heading(subtract(b, a)));
  const [p, q] = [apply(turn, a), apply(turn, b)];
  return compose(translation((c.x + d.x - p.x - q.x) / 2, (c.y + d.y - p.y - q.y) / 2), turn);
};

/** Every place's nearest hole of its kind; null where one has none near or two take the same. */
const matched = (
  ids: readonly string[],
  shape: readonly Point[],
  motion: Motion,
  designed: ReadonlyMap<string, Point>,
  kinds: ReadonlyMap<string, string>,
): Way | null => {
  const names = new Map<string, string>();
  const taken = new Set<string>();
  let error = 0;
  for (const [k, id] of ids.entries()) {
    const p = apply(motion, shape[k] ?? { x: 0, y: 0 });
    let nearest: string | null = null;
    let off = NEAR;
    for (const [name, at] of designed) {
      if (kinds.get(name) === kinds.get(id) && distance(p, at) < off) [nearest, off] = [name, distance(p, at)];
    }
    if (nearest === null || taken.has(nearest)) return null;
    names.set(id, nearest);
    taken.add(nearest);
    error += off * off;
  }
  return { names, error };
};
