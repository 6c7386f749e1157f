import { type Box, type Circle, distance } from '@fayplate/core';
import {
  type Segment,
  boxHolds,
  boxMeetsCircle,
  boxToCircle,
  boxesMeet,
  runsAlong,
  segmentMeetsBox,
  segmentMeetsCircle,
  segmentsMeet,
} from './meet.js';

/**
 * What is already on the paper: discs (holes), lines (cross-hairs, outlines, leaders), boxes (lettering). A leader may
 * run over a line that is `crossable`, as over an outline or a centre line, but not along it; lettering never lies on
 * one.
 */
export type Obstacle =
  | { readonly kind: 'circle'; readonly circle: Circle; readonly owner?: string }
  | { readonly kind: 'segment'; readonly segment: Segment; readonly owner?: string; readonly crossable?: boolean }
  | { readonly kind: 'box'; readonly box: Box; readonly owner?: string };

const boxOfObstacle = (o: Obstacle): Box => {
  if (o.kind === 'box') return o.box;
  if (o.kind === 'circle') {
    const { centre, radius } = o.circle;
    return { left: centre.x - radius, right: centre.x + radius, bottom: centre.y - radius, top: centre.y + radius };
  }
  const { from, to } = o.segment;
  return {
    left: Math.min(from.x, to.x),
    right: Math.max(from.x, to.x),
    bottom: Math.min(from.y, to.y),
    top: Math.max(from.y, to.y),
  };
};

const CELL = 25;
/** A long line would fill thousands of cells: what spans more than this is looked at every time instead. */
const MOST_CELLS = 400;

/** The obstacles of a drawing, kept in squares of 25 mm so that a thousand labels are placed in moments. */
export interface Field {
  readonly add: (obstacle: Obstacle) => void;
  /** Does anything lie under the box? */
  readonly coversBox: (box: Box) => boolean;
  /**
   * Would a leader cross anything but the disc of its own hole, or run along a line nearer than `near`? Its own
   * cross-hair counts: a leader along an arm cannot be told from it. What the leader ends in does not: its hole lies
   * there.
   */
  readonly crosses: (segment: Segment, owner: string, near: number) => boolean;
  /** Does the disc of another come within `by` of the box? */
  readonly besideOther: (box: Box, owner: string, by: number) => boolean;
}

/** What labels must keep clear of, ready to be asked of any box. */
export const field = (obstacles: readonly Obstacle[]): Field => {
  const columns = new Map<number, Map<number, Obstacle[]>>();
  const large: Obstacle[] = [];
  const cellsOf = (box: Box): readonly [left: number, right: number, bottom: number, top: number] => [
    Math.floor(box.left / CELL),
    Math.floor(box.right / CELL),
    Math.floor(box.bottom / CELL),
    Math.floor(box.top / CELL),
  ];
  const tooLarge = ([l, r, b, t]: ReturnType<typeof cellsOf>): boolean => (r - l + 1) * (t - b + 1) > MOST_CELLS;
  const add = (obstacle: Obstacle): void => {
    const cells = cellsOf(boxOfObstacle(obstacle));
    if (tooLarge(cells)) {
      large.push(obstacle);
      return;
    }
    const [l, r, b, t] = cells;
    for (let x = l; x <= r; x++) {
      const column = columns.get(x) ?? new Map<number, Obstacle[]>();
      columns.set(x, column);
      for (let y = b; y <= t; y++) {
        const cell = column.get(y);
        if (cell === undefined) column.set(y, [obstacle]);
        else cell.push(obstacle);
      }
    }
  };
  const some = (box: Box, hit: (o: Obstacle) => boolean): boolean => {
    if (large.some(hit)) return true;
    const cells = cellsOf(box);
    if (tooLarge(cells))
      return [...columns.values()].some((column) => [...column.values()].some((cell) => cell.some(hit)));
    const [l, r, b, t] = cells;
    for (let x = l; x <= r; x++) {
      const column = columns.get(x);
      if (column === undefined) continue;
      for (let y = b; y <= t; y++) if (column.get(y)?.some(hit) === true) return true;
    }
    return false;
  };
  for (const o of obstacles) add(o);
  return {
    add,
    coversBox: (box) =>
      some(box, (o) => {
        if (o.kind === 'box') return boxesMeet(o.box, box);
        return o.kind === 'circle' ? boxMeetsCircle(box, o.circle) : segmentMeetsBox(o.segment, box);
      }),
    crosses: (segment, owner, near) =>
      some(boxOfObstacle({ kind: 'segment', segment }), (o) => {
        if (o.kind === 'box') return segmentMeetsBox(segment, o.box) && !boxHolds(o.box, segment.to);
        if (o.kind === 'circle')
          return (
            o.owner !== owner &&
            segmentMeetsCircle(segment, o.circle) &&
            distance(o.circle.centre, segment.to) >= o.circle.radius
          );
        return o.crossable === true ? runsAlong(segment, o.segment, near) : segmentsMeet(segment, o.segment);
      }),
    besideOther: (box, owner, by) =>
      some(
        { left: box.left - by, right: box.right + by, bottom: box.bottom - by, top: box.top + by },
        (o) => o.kind === 'circle' && o.owner !== undefined && o.owner !== owner && boxToCircle(box, o.circle) < by,
      ),
  };
};
