import type { Box, Circle } from '@fayplate/core';
import { type Segment, boxMeetsCircle, boxesMeet, segmentMeetsBox, segmentMeetsCircle, segmentsMeet } from './meet.js';

/** What is already on the paper: discs (holes), lines (cross-hairs, outlines, leaders), boxes (lettering). */
export type Obstacle =
  | { readonly kind: 'circle'; readonly circle: Circle; readonly owner?: string }
  | { readonly kind: 'segment'; readonly segment: Segment; readonly owner?: string }
  | { readonly kind: 'box'; readonly box: Box; readonly owner?: string };

const boxOfObstacle = (o: Obstacle): Box => {
  if (o.kind === 'box') return o.box;
  if (o.kind === 'circle') {
    const { centre, radius } = o.circle;
    return { left: centre.x - radius, right: centre.x + radius, bottom: centre.y - radius, top: centre.y + radius };
  }
  const { from, to } = o.segment;
  return { left: Math.min(from.x, to.x), right: Math.max(from.x, to.x), bottom: Math.min(from.y, to.y), top: Math.max(from.y, to.y) };
};

const CELL = 25;
/** A long line would fill thousands of cells: what spans more than this is looked at every time instead. */
const MOST_CELLS = 400;

/** The obstacles of a drawing, kept in squares of 25 mm so that a thousand labels are placed in moments. */
export interface Field {
  readonly add: (obstacle: Obstacle) => void;
  /** Does anything but the owner's own discs and lines lie under the box? */
  readonly coversBox: (box: Box) => boolean;
  /** Would a leader cross anything, leaving out what belongs to `owner`? */
  readonly crosses: (segment: Segment, owner: string) => boolean;
}

export const field = (obstacles: readonly Obstacle[]): Field => {
  const cells = new Map<string, Obstacle[]>();
  const large: Obstacle[] = [];
  const keys = (box: Box): readonly string[] | null => {
    const [l, r, b, t] = [box.left, box.right, box.bottom, box.top].map((v) => Math.floor(v / CELL)) as [number, number, number, number];
    if ((r - l + 1) * (t - b + 1) > MOST_CELLS) return null;
    return Array.from({ length: (r - l + 1) * (t - b + 1) }, (_, i) => `${l + (i % (r - l + 1))},${b + Math.floor(i / (r - l + 1))}`);
  };
  const add = (obstacle: Obstacle): void => {
    const where = keys(boxOfObstacle(obstacle));
    if (where === null) large.push(obstacle);
    for (const key of where ?? []) {
      const cell = cells.get(key);
      if (cell === undefined) cells.set(key, [obstacle]);
      else cell.push(obstacle);
    }
  };
  const near = (box: Box): Iterable<Obstacle> => {
    const where = keys(box);
    return where === null ? [...large, ...new Set([...cells.values()].flat())] : [...large, ...where.flatMap((k) => cells.get(k) ?? [])];
  };
  for (const o of obstacles) add(o);
  return {
    add,
    coversBox: (box) => {
      for (const o of near(box)) {
        if (o.kind === 'box' && boxesMeet(o.box, box)) return true;
        if (o.kind === 'circle' && boxMeetsCircle(box, o.circle)) return true;
        if (o.kind === 'segment' && segmentMeetsBox(o.segment, box)) return true;
      }
      return false;
    },
    crosses: (segment, owner) => {
      for (const o of near(boxOfObstacle({ kind: 'segment', segment }))) {
        if (o.owner === owner) continue;
        if (o.kind === 'box' && segmentMeetsBox(segment, o.box)) return true;
        if (o.kind === 'circle' && segmentMeetsCircle(segment, o.circle)) return true;
        if (o.kind === 'segment' && segmentsMeet(segment, o.segment)) return true;
      }
      return false;
    },
  };
};
