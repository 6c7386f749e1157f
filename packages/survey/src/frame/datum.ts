import { type Motion, type Point, apply, distance, fitCircle, sayAll, wrapAngle } from '@fayplate/core';
import type { Face } from '@fayplate/job';
import type { FeatureSlots, Unknowns } from '../network/unknowns.js';
import type { Frame } from '../types.js';
import { type Row, combine, rowOf } from './rows.js';

/**
 * The centre of the circle of least squares through features' centres, and how it moves with them: with uᵢ the unit
 * vector from the centre to feature i and u′ᵢ that less their mean, dc = (Σ u′ᵢ u′ᵢᵀ)⁻¹ Σ u′ᵢ (uᵢ · dpᵢ), the radius
 * having been eliminated from the normal equations (Gauss and Newton's step, residuals taken as small). Null where the
 * features lie on a line or are fewer than three.
 */
export const circleOrigin = (
  x: Float64Array,
  features: readonly Pick<FeatureSlots, 'x' | 'y'>[],
): { readonly at: Point; readonly rows: readonly [Row, Row] } | null => {
  const points = features.map((f) => ({ x: x[f.x] as number, y: x[f.y] as number }));
  const circle = fitCircle(points);
  if (circle === null) return null;
  const units = points.map((p) => {
    const d = Math.max(distance(p, circle.centre), 1e-300);
    return { x: (p.x - circle.centre.x) / d, y: (p.y - circle.centre.y) / d };
  });
  const mean = (of: (u: Point) => number): number => units.reduce((sum, u) => sum + of(u), 0) / units.length;
  const [mx, my] = [mean((u) => u.x), mean((u) => u.y)];
  let [xx, xy, yy] = [0, 0, 0];
  for (const u of units) {
    xx += (u.x - mx) ** 2;
    xy += (u.x - mx) * (u.y - my);
    yy += (u.y - my) ** 2;
  }
  const det = xx * yy - xy * xy;
  if (!(det > 1e-12)) return null;
  const row = (a: number, b: number): Row =>
    rowOf(
      ...features.flatMap((f, i) => {
        const u = units[i] ?? { x: 0, y: 0 };
        const w = (a * (u.x - mx) + b * (u.y - my)) / det;
        return [[f.x, w * u.x] as const, [f.y, w * u.y] as const];
      }),
    );
  return { at: circle.centre, rows: [row(yy, -xy), row(-xy, xx)] };
};

/** The face's frame as it lies among the unknowns: where it is, and how it moves when they do. */
export interface Datum {
  readonly frame: Frame;
  /** From the frame of the unknowns to the face's. */
  readonly motion: Motion;
  /** How the origin moves, in the unknowns' own frame, mm. */
  readonly originRows: readonly [Row, Row];
  /** How `motion.turn` grows, radians. */
  readonly turnRow: Row;
  readonly warnings: readonly string[];
}

const at = (x: Float64Array, f: FeatureSlots): Point => ({ x: x[f.x] as number, y: x[f.y] as number });

/** A clock as far off as this is a slip, radians: it must not turn the whole face. */
const SLIP = Math.PI / 2;

/**
 * Whether bench readings hold the face: places of two features. Its unknowns then lie in the bench frame, whose y is
 * up.
 */
const onBench = (face: Face): boolean =>
  new Set(face.readings.filter((r) => r.kind === 'at' || r.kind === 'touch').map((r) => r.features[0])).size > 1;

interface Direction {
  readonly heading: number;
  /** How the heading grows, radians. */
  readonly row: Row;
}

/** Heading of a line that runs from a moving point (its rows given) to a feature. */
const headingFrom = (x: Float64Array, from: Point, fromRows: readonly [Row, Row], to: FeatureSlots): Direction => {
  const dx = (x[to.x] as number) - from.x;
  const dy = (x[to.y] as number) - from.y;
  const d2 = dx * dx + dy * dy;
  if (d2 === 0) return { heading: 0, row: new Map() };
  const row = combine([1, rowOf([to.x, -dy / d2], [to.y, dx / d2])], [dy / d2, fromRows[0]], [-dx / d2, fromRows[1]]);
  return { heading: Math.atan2(dy, dx), row };
};

/**
 * The frame that the face asks for. `whole`: the features that move together and so may stand for the face where it
 * asks for the mean of the centres or for the clocks' direction.
 */
export const datumOf = (face: Face, unknowns: Unknowns, x: Float64Array, whole: readonly string[]): Datum => {
  const slots = (id: string | null | undefined): FeatureSlots | undefined =>
    id === null || id === undefined ? undefined : unknowns.features.get(id);
  const members = whole.flatMap((id) => slots(id) ?? []);
  const centre = slots(face.centre) ?? slots(face.across?.[0]);
  const onCircle = (face.centreCircle ?? []).flatMap((id) => slots(id) ?? []);
  // Those that some reading does not tie to the rest would leave the centre loose.
  const circle =
    centre !== undefined || onCircle.length === 0 || onCircle.some((f) => !whole.includes(f.id))
      ? null
      : circleOrigin(x, onCircle);
  const originRows: readonly [Row, Row] =
    centre !== undefined
      ? [rowOf([centre.x, 1]), rowOf([centre.y, 1])]
      : (circle?.rows ?? [
          rowOf(...members.map((f) => [f.x, 1 / members.length] as const)),
          rowOf(...members.map((f) => [f.y, 1 / members.length] as const)),
        ]);
  const origin =
    centre !== undefined
      ? at(x, centre)
      : (circle?.at ?? {
          x: members.reduce((s, f) => s + (x[f.x] as number), 0) / Math.max(members.length, 1),
          y: members.reduce((s, f) => s + (x[f.y] as number), 0) / Math.max(members.length, 1),
        });
  const middle = circle === null ? null : `the centre of the circle of ${sayAll(onCircle.map((f) => f.id))}`;
  const build = (frame: Frame, turn: number, turnRow: Row, warnings: readonly string[] = []): Datum => {
    const still: Motion = { turn, mirrored: false, shift: { x: 0, y: 0 } };
    const moved = apply(still, origin);
    const own = circle === null ? frame : { ...frame, circled: onCircle.map((f) => f.id) };
    return { frame: own, motion: { ...still, shift: { x: -moved.x, y: -moved.y } }, originRows, turnRow, warnings };
  };
  const upright = (to: FeatureSlots): readonly [number, Row] => {
    const { heading, row } = headingFrom(x, origin, originRows, to);
    return [Math.PI / 2 - heading, combine([-1, row])];
  };

  const [from, to] = [slots(face.across?.[0]), slots(face.across?.[1])];
  if (from !== undefined && to !== undefined) {
    const { heading, row } = headingFrom(x, at(x, from), [rowOf([from.x, 1]), rowOf([from.y, 1])], to);
    return build({ across: [from.id, to.id], origin: (centre ?? from).id }, -heading, combine([-1, row]));
  }
  const up = slots(face.up);
  if (up !== undefined) {
    const [turn, row] = upright(up);
    return build(
      centre !== undefined || middle !== null
        ? { origin: centre?.id ?? middle ?? '', up: up.id }
        : { origin: 'mean of centres', direction: { up: up.id } },
      turn,
      row,
    );
  }
  const clocks = members.flatMap((f) => {
    const clock = face.features.find((g) => g.id === f.id)?.clock ?? null;
    return clock === null || f === centre ? [] : [{ clock, ...headingFrom(x, origin, originRows, f) }];
  });
  if (clocks.length > 0) {
    const all = clocks.map((c) => c.clock - c.heading);
    let turn = Math.atan2(
      all.reduce((s, t) => s + Math.sin(t), 0),
      all.reduce((s, t) => s + Math.cos(t), 0),
    );
    const meant = clocks.filter((_, i) => Math.abs(wrapAngle((all[i] ?? 0) - turn)) < SLIP);
    const heard = 2 * meant.length > clocks.length ? meant : clocks;
    const turns = heard.map((c) => c.clock - c.heading);
    // The mean of differences each taken the short way round: the least sum of squared clock differences.
    for (let pass = 0; pass < 5; pass++) turn += turns.reduce((s, t) => s + wrapAngle(t - turn), 0) / turns.length;
    const row = combine(...heard.map((c) => [-1 / heard.length, c.row] as const));
    return build({ origin: centre?.id ?? middle ?? 'mean of centres', direction: 'clocks' }, turn, row);
  }
  const others = members.filter((f) => f !== centre);
  if (onBench(face)) {
    const row = combine(...others.map((f) => [-1 / others.length, headingFrom(x, origin, originRows, f).row] as const));
    return build({ origin: centre?.id ?? middle ?? 'mean of centres', direction: 'bench' }, 0, row);
  }
  const [other] = others;
  if (other === undefined)
    return build({ origin: centre?.id ?? middle ?? 'mean of centres', direction: 'clocks' }, 0, new Map());
  const [turn, row] = upright(other);
  const frame: Frame =
    centre !== undefined || middle !== null
      ? { origin: centre?.id ?? middle ?? '', up: other.id }
      : { origin: 'mean of centres', direction: { up: other.id } };
  return build(frame, turn, row, [
    `Nothing says which way is up: ${other.id} is taken as 12 ` +
      `o'clock. Say which feature is up, or give clock positions.`,
  ]);
};
