import { type Motion, type Path, type Point, apply, movePath } from '@fayplate/core';

/**
 * How a view lies on the sheet: the plate moved, made `scale` times its size, and set down with its origin at `at`,
 * paper mm.
 */
export interface ViewPlace {
  readonly motion: Motion;
  readonly scale: number;
  readonly at: Point;
}

/** A place of the plate, on the sheet. */
export const onSheet = (v: ViewPlace, p: Point): Point => {
  const q = apply(v.motion, p);
  return { x: v.at.x + v.scale * q.x, y: v.at.y + v.scale * q.y };
};

/** A path of the plate, on the sheet. */
export const pathOnSheet = (v: ViewPlace, path: Path): Path => {
  const moved = movePath(v.motion, path);
  const set = (q: Point): Point => ({ x: v.at.x + v.scale * q.x, y: v.at.y + v.scale * q.y });
  return {
    ...moved,
    start: set(moved.start),
    edges: moved.edges.map((e) =>
      e.kind === 'line' ? { ...e, to: set(e.to) } : { ...e, to: set(e.to), centre: set(e.centre) },
    ),
  };
};
