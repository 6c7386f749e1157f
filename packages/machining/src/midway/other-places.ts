import {
  type Motion,
  type Point,
  apply,
  compose,
  distance,
  flipX,
  heading,
  identity,
  subtract,
  wrapAngle,
} from '@fayplate/core';
import type { Plate, PlateHole } from '@fayplate/plate';
import type { Pattern } from '@fayplate/survey';
import { farPairs } from './lay-by-good.js';
import { onto } from '../prove/renumber.js';

/** How near a drilled hole must come to another's place to serve there, mm. */
const NEAR = 1;
/** Pairs of drilled holes that another place of the whole is looked for by. */
const PAIRS = 6;
/** Other places that are worth trying. */
const TOLD = 3;
/** Layings of the whole that are matched hole by hole, no more: 60 holes equally divided have 1,440. */
const MOST = 3000;

/** Drilled holes put to another use. */
interface OtherUse {
  /** Hole as drilled → the hole of the drawing that it serves. */
  readonly names: ReadonlyMap<string, string>;
  readonly unused: readonly string[];
  /** From where it lies as drawn to where it lies then. */
  readonly motion: Motion;
  readonly over: boolean;
}

/** Holes that may stand for each other, whichever part they are for; one sunk or blind is made from one side. */
const kindOf = (h: PlateHole): string =>
  [
    h.as,
    h.diameter.toFixed(2),
    h.depth ?? '',
    h.thread?.name ?? '',
    h.sink === null ? '' : `${h.sink.kind} ${h.sink.side}`,
  ].join(' ');

const bothWays = (plate: Plate, id: string): boolean => {
  const hole = plate.holes.find((h) => h.id === id);
  return hole === undefined
    ? plate.bores.some((b) => b.id === id && b.kind === 'bore')
    : hole.sink === null && hole.depth === null;
};

/**
 * Where else on the parts the drilled pattern can go, turned or turned over, with fewer holes out of place than as
 * drawn (`wrong` of them): each hole then serves for the one that it lies on. `all`: whether every such place was
 * looked at, or the search stopped after so many.
 */
export const otherPlaces = (
  plate: Plate,
  laid: Pattern,
  wrong: number,
): { readonly uses: readonly OtherUse[]; readonly all: boolean } => {
  let layings = 0;
  const kinds = new Map([
    ...plate.holes.map((h) => [h.id, kindOf(h)] as const),
    ...plate.bores.map((b) => [b.id, b.id] as const),
  ]);
  const designed = [...plate.holes, ...plate.bores].map((h) => ({ id: h.id, x: h.x, y: h.y }));
  const found = new Map<string, OtherUse & { readonly error: number }>();
  const flips: readonly Motion[] = laid.ids.every((id) => bothWays(plate, id)) ? [identity, flipX] : [identity];
  for (const flip of flips) {
    const shape = laid.points.map((p) => apply(flip, p));
    for (const [i, j] of farPairs(shape, PAIRS)) {
      const [a, b] = [shape[i], shape[j]] as [Point, Point];
      for (const c of designed)
        for (const d of designed) {
          if (
            c === d ||
            kinds.get(c.id) !== kinds.get(laid.ids[i] ?? '') ||
            kinds.get(d.id) !== kinds.get(laid.ids[j] ?? '')
          )
            continue;
          if (Math.abs(distance(a, b) - distance(c, d)) > NEAR || ++layings > MOST) continue;
          const motion = compose(onto(a, b, c, d), flip);
          const use = matchedUnder(motion, laid, designed, kinds);
          const key = JSON.stringify([...use.names]);
          const there = found.get(key);
          if (there === undefined || use.error < there.error) found.set(key, { ...use, motion, over: flip.mirrored });
        }
    }
  }
  const uses = [...found.values()]
    .filter((u) => u.unused.length < wrong && (u.over || [...u.names].some(([read, is]) => read !== is)))
    .sort((a, b) => a.unused.length - b.unused.length || Number(a.over) - Number(b.over) || a.error - b.error)
    .slice(0, TOLD);
  return { uses, all: layings <= MOST };
};

const matchedUnder = (
  motion: Motion,
  laid: Pattern,
  designed: readonly (Point & { readonly id: string })[],
  kinds: ReadonlyMap<string, string>,
): Pick<OtherUse, 'names' | 'unused'> & { readonly error: number } => {
  const names = new Map<string, string>();
  const taken = new Set<string>();
  let error = 0;
  for (const [k, id] of laid.ids.entries()) {
    const at = apply(motion, laid.points[k] ?? { x: 0, y: 0 });
    const free = designed.filter((d) => !taken.has(d.id) && kinds.get(d.id) === kinds.get(id));
    const nearest = free.reduce<(typeof free)[number] | null>(
      (b, d) => (distance(d, at) < (b === null ? NEAR : distance(b, at)) ? d : b),
      null,
    );
    if (nearest === null) continue;
    names.set(id, nearest.id);
    taken.add(nearest.id);
    error += distance(nearest, at) ** 2;
  }
  return { names, unused: laid.ids.filter((id) => !names.has(id)), error };
};

/**
 * Turns of the second part, about its axis, that bring more of its drilled holes to a place of theirs than as drawn;
 * radians counter-clockwise, the best first.
 */
export const otherClockings = (
  plate: Plate,
  laid: Pattern,
  pivot: Point,
): readonly { readonly turn: number; readonly names: ReadonlyMap<string, string> }[] => {
  const own = plate.holes.filter((h) => h.part?.face === plate.faces[1]);
  const drilled = laid.ids.flatMap((id, k) => {
    const at = laid.points[k];
    return at !== undefined && own.some((h) => h.id === id) ? [{ id, ...at }] : [];
  });
  const spoke = (p: Point): { readonly r: number; readonly a: number } => {
    const v = subtract(p, pivot);
    return { r: Math.hypot(v.x, v.y), a: heading(v) };
  };
  const serving = (turn: number): ReadonlyMap<string, string> => {
    const names = new Map<string, string>();
    for (const b of drilled) {
      const { r, a } = spoke(b);
      const at = own.find((h) => {
        const s = spoke(h);
        const off = Math.hypot(r - s.r, r * wrapAngle(a - s.a - turn));
        return (
          off < NEAR && kindOf(h) === kindOf(own.find((o) => o.id === b.id) ?? h) && ![...names.values()].includes(h.id)
        );
      });
      if (at !== undefined) names.set(b.id, at.id);
    }
    return names;
  };
  const asDrawn = serving(0).size;
  const turns = drilled.flatMap((b) => own.map((h) => wrapAngle(spoke(b).a - spoke(h).a)));
  return turns
    .map((turn) => ({ turn, names: serving(turn) }))
    .filter(({ names }) => names.size > asDrawn)
    .sort((a, b) => b.names.size - a.names.size || Math.abs(a.turn) - Math.abs(b.turn))
    .filter((t, i, all) => all.findIndex((o) => Math.abs(wrapAngle(o.turn - t.turn)) < 0.01) === i)
    .slice(0, 2);
};
