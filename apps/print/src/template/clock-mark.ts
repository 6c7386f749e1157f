import { type Path, type Point, add, cross, flatten, polar, subtract } from '@fayplate/core';
import { type Shape, polygon } from '@fayplate/drawing';

/** How far out a ray leaves the path for good, mm; 0 where it never meets it. */
export const rayExit = (path: Path, from: Point, direction: number): number => {
  const u = polar(1, direction);
  const points = flatten(path, 0.05);
  return points.reduce((far, a, i) => {
    const v = subtract(points[(i + 1) % points.length] ?? a, a);
    const w = cross(u, v);
    if (w === 0) return far;
    const r = subtract(a, from);
    const along = cross(r, v) / w;
    const across = cross(r, u) / w;
    return across >= 0 && across <= 1 ? Math.max(far, along) : far;
  }, 0);
};

/** A triangle that stands inside the outline at a clock direction and points out to its edge. */
export const clockMark = (
  outline: Path,
  centre: Point,
  direction: number,
): { readonly middle: Point; readonly shape: Shape } => {
  const edge = rayExit(outline, centre, direction);
  const at = (k: number): Point => add(centre, polar(k, direction));
  const base = at(edge - 3.6);
  const half = polar(1.3, direction + Math.PI / 2);
  return {
    middle: at(edge - 2.3),
    shape: polygon('note', [at(edge - 1), add(base, half), { x: base.x - half.x, y: base.y - half.y }], null, 0),
  };
};
