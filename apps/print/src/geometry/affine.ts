import type { Path, Point } from '@fayplate/core';
import type { Shape } from '@fayplate/drawing';

/** x' = a x + c y + e, y' = b x + d y + f: the six numbers in the order of ISO 32000. */
export type Affine = readonly [a: number, b: number, c: number, d: number, e: number, f: number];

export const unchanged: Affine = [1, 0, 0, 1, 0, 0];
export const shifted = (x: number, y: number): Affine => [1, 0, 0, 1, x, y];
export const scaled = (k: number): Affine => [k, 0, 0, k, 0, 0];
/** x → −x: the same plate looked at from its other side. */
export const mirrored: Affine = [-1, 0, 0, 1, 0, 0];

export const carry = ([a, b, c, d, e, f]: Affine, p: Point): Point => ({
  x: a * p.x + c * p.y + e,
  y: b * p.x + d * p.y + f,
});

/** `first`, then `second`. */
export const chain = (first: Affine, second: Affine): Affine => {
  const [a, b, c, d, e, f] = first;
  const [A, B, C, D] = second;
  const at = carry(second, { x: e, y: f });
  return [A * a + C * b, B * a + D * b, A * c + C * d, B * c + D * d, at.x, at.y];
};

/** The way back; the matrix must not be flat. */
export const inverse = ([a, b, c, d, e, f]: Affine): Affine => {
  const det = a * d - b * c;
  const inv: Affine = [d / det, -b / det, -c / det, a / det, 0, 0];
  const at = carry(inv, { x: e, y: f });
  return [inv[0], inv[1], inv[2], inv[3], -at.x, -at.y];
};

/** A path carried by a shift, a mirror or one scale for both axes, under which arcs stay arcs. */
export const carryPath = (m: Affine, path: Path): Path => {
  const turned = m[0] * m[3] - m[1] * m[2] < 0;
  return {
    start: carry(m, path.start),
    closed: path.closed,
    edges: path.edges.map((e) =>
      e.kind === 'line'
        ? { kind: 'line', to: carry(m, e.to) }
        : { kind: 'arc', to: carry(m, e.to), centre: carry(m, e.centre), ccw: turned ? !e.ccw : e.ccw },
    ),
  };
};

/**
 * Lines grow thinner slower than a drawing grows smaller, all by the same part: printed, they stay to be seen and keep
 * their ranks.
 */
const penAt = (k: number): number => Math.min(1, Math.sqrt(k));

/** A shape made `k` times its size about the origin, its letters with it, and then shifted. */
export const scaleShape = (k: number, shift: Point, shape: Shape): Shape => {
  if (shape.kind === 'group') return { ...shape, shapes: shape.shapes.map((s) => scaleShape(k, shift, s)) };
  const place: Affine = [k, 0, 0, k, shift.x, shift.y];
  if (shape.kind === 'text') return { ...shape, at: carry(place, shape.at), capital: shape.capital * k };
  const { stroke } = shape;
  const pen = penAt(k);
  return {
    ...shape,
    path: carryPath(place, shape.path),
    stroke: stroke === null ? null : { ...stroke, width: stroke.width * pen, dash: stroke.dash.map((d) => d * pen) },
  };
};
