import {
  type Circle,
  type Path,
  type Point,
  apply,
  distance,
  movePath,
  rotation,
  subtract,
  translation,
} from '@fayplate/core';
import { borePath } from '../bores/shape.js';
import { type Draft, turnsWith } from '../draft.js';
import { depthInside } from '../outline/inside.js';
import { biteOf, bitten } from '../outline/notch.js';
import { footprints, outlineRound } from '../outline/outline.js';
import type { Footprint } from '../parts/footprint.js';
import { type Cut, moveSpine } from '../solids/cut.js';

/** Outlines kept, so that tests which look at the same angles share them. */
const KEPT = 20_000;

/**
 * What is where on a plate with its second face turned to another clocking than it was drawn at; nothing is sized
 * again.
 */
export interface AtClocking {
  /** A point of the draft as it lies at a clocking, radians clockwise. */
  readonly at: (p: Point, turns: boolean, clocking: number) => Point;
  /** mm inside the outline at a clocking, for a point as drawn. */
  readonly depth: (p: Point, turns: boolean, clocking: number) => number;
  /** Whether anything tells where a part's metal lies. */
  readonly covers: (index: 0 | 1) => boolean;
  /**
   * mm by which something round, as drawn, stays clear of a part at a clocking; the part's openings let it in. Throws
   * RangeError where nothing covers.
   */
  readonly clearOf: (index: 0 | 1, p: Point, turns: boolean, radius: number, clocking: number) => number;
}

const clearance = (footprint: Footprint, at: Point, radius: number): number => {
  if (footprint.path === null) throw new RangeError(`nothing tells where ${footprint.face} lies`);
  const outside = -(depthInside(at, footprint.path) + radius);
  return Math.max(outside, ...footprint.openings.map((o) => o.radius - distance(o.centre, at) - radius));
};

export const atClocking = (draft: Draft): AtClocking => {
  const { desk } = draft;
  const drawnAt = desk.clocking;
  const spec = desk.spec.outline;
  const turnBy = (p: Point, by: number): Point => apply(rotation(-by), p);
  const at: AtClocking['at'] = (p, turns, clocking) => (turns ? turnBy(p, clocking - drawnAt) : p);
  /** Seen from something that itself turns, everything else turns back. */
  const seenFrom = (turningFrame: boolean, p: Point, turns: boolean, clocking: number): Point =>
    turningFrame ? turnBy(at(p, turns, clocking), drawnAt - clocking) : at(p, turns, clocking);
  const circles = footprints(draft.cuts, []).map((circle, i) => ({ circle, turns: spineOwners(draft)[i] ?? false }));
  const raised = draft.bores
    .filter((b) => b.kind === 'spigot')
    .map((b) => ({ circle: { centre: { x: b.x, y: b.y }, radius: b.diameter / 2 }, turns: turnsWith(desk, b) }));
  const notches = draft.bores.filter((b) => b.box?.notch === true && b.depth === null);
  /** A notch keeps its shape and turns with its face; where it no longer opens at one edge it is left out. */
  const lessNotches = (path: Path, clocking: number): Path =>
    notches.reduce((left, b) => {
      const area = borePath(b);
      const bite = biteOf(left, turnsWith(desk, b) ? movePath(rotation(drawnAt - clocking), area) : area);
      return typeof bite === 'number' ? left : bitten(bite);
    }, path);
  const kept = new Map<number, Path>();
  const outlineAt = (clocking: number): Path => {
    const known = kept.get(clocking);
    if (known !== undefined) return known;
    const moved: readonly Circle[] = [...circles, ...raised].map(({ circle, turns }) => ({
      centre: at(circle.centre, turns, clocking),
      radius: circle.radius,
    }));
    const path = spec.shape === 'like' ? draft.outline.path : lessNotches(outlineRound(spec, moved), clocking);
    if (kept.size < KEPT) kept.set(clocking, path);
    return path;
  };
  const { parts } = draft;
  return {
    at,
    depth: (p, turns, clocking) =>
      spec.shape === 'like'
        ? depthInside(seenFrom(spec.face === desk.faces[1].name, p, turns, clocking), draft.outline.path)
        : depthInside(at(p, turns, clocking), outlineAt(clocking)),
    covers: (index) => parts[index].path !== null,
    clearOf: (index, p, turns, radius, clocking) =>
      clearance(parts[index], seenFrom(index === 1, p, turns, clocking), radius),
  };
};

/** Whether each of `footprints`' circles turns: one for each end of each cut's spine. */
const spineOwners = (draft: Draft): readonly boolean[] =>
  draft.cuts.filter((c) => c.notch !== true).flatMap((c) => c.spine.map(() => c.turns));

/**
 * The draft as it lies about what the second face turns about: the tests of an angle turn about (0, 0). Holes keep
 * their depths and their names. The same draft where that is where it turns.
 */
export const centred = (draft: Draft): Draft => {
  const { pivot } = draft.desk;
  if (pivot.x === 0 && pivot.y === 0) return draft;
  const by = translation(-pivot.x, -pivot.y);
  const at = (p: Point): Point => subtract(p, pivot);
  const put = <T extends Point>(thing: T): T => ({ ...thing, ...at(thing) });
  const cut = (c: Cut): Cut => ({ ...c, spine: moveSpine(c.spine, at) });
  const path = (p: Path): Path => movePath(by, p);
  const circle = (c: Circle): Circle => ({ ...c, centre: at(c.centre) });
  const part = (f: Footprint): Footprint => ({
    ...f,
    path: f.path === null ? null : path(f.path),
    openings: f.openings.map(circle),
  });
  return {
    ...draft,
    holes: draft.holes.map(put),
    bores: draft.bores.map(put),
    spared: draft.spared.map(put),
    cuts: draft.cuts.map(cut),
    outline: { ...draft.outline, path: path(draft.outline.path) },
    parts: [part(draft.parts[0]), part(draft.parts[1])],
  };
};
