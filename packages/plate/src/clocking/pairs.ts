import { type Point, apply, heading, norm, rotation, subtract } from '@fayplate/core';
import { type Cut, type Spine, moveSpine, runsOf, signedToSpine, spanOf, spineDistance } from '../solids/cut.js';
import type { Pair } from '../checks/webs.js';
import type { CheckId } from '../types.js';
import type { AngleTest } from './angle-test.js';

/** A spine as it lies at `clocking`, drawn at `drawnAt`: radians clockwise. */
const turnSpine = (spine: Spine, by: number): Spine => {
  const turn = rotation(-by);
  return moveSpine(spine, (p) => apply(turn, p));
};

/**
 * Turns (radians clockwise from where the moving point is drawn) that bring it to a distance from a fixed point:
 * |m − f|² = a² + b² − 2 a b cos x, where x is the angle between them about the origin.
 */
const toDistance = (moving: Point, fixed: Point, wanted: number): readonly number[] => {
  const a = norm(fixed);
  const b = norm(moving);
  if (a * b === 0) return [];
  const k = (a * a + b * b - wanted * wanted) / (2 * a * b);
  if (k < -1 || k > 1) return [];
  const level = heading(moving) - heading(fixed);
  return [level - Math.acos(k), level + Math.acos(k)];
};

/** Turns that bring a moving point to a signed distance from the line through a fixed spine. */
const toLine = (moving: Point, [s, t]: readonly [Point, Point], wanted: number): readonly number[] => {
  const along = subtract(t, s);
  const length = norm(along);
  const b = norm(moving);
  if (length === 0 || b === 0) return [];
  const normal = { x: -along.y / length, y: along.x / length };
  const k = (normal.x * s.x + normal.y * s.y + wanted) / b;
  if (k < -1 || k > 1) return [];
  // b cos(heading(m) − turn − heading(n)) = k b
  const level = heading(moving) - heading(normal);
  return [level - Math.acos(k), level + Math.acos(k)];
};

/** Every turn at which two spines can be `wanted` apart: ends against ends, and ends against the other's line. */
const turnsToDistance = (moving: Spine, fixed: Spine, wanted: number): readonly number[] => [
  ...moving.flatMap((m) => fixed.flatMap((f) => toDistance(m, f, wanted))),
  ...moving.flatMap((m) => runsOf(fixed).flatMap((r) => [wanted, -wanted].flatMap((w) => toLine(m, r, w)))),
  // Turning the moving spine one way is turning the fixed end the other way.
  ...fixed.flatMap((f) =>
    runsOf(moving).flatMap((r) => [wanted, -wanted].flatMap((w) => toLine(f, r, w).map((x) => -x))),
  ),
];

const isPoint = (s: Spine): boolean => s.length === 2 && s[0].x === s[1].x && s[0].y === s[1].y;

/**
 * How far apart two spines are once the moving one has turned clockwise by so much; round holes by the law of cosines,
 * without drawing them.
 */
const apartAfter = (moving: Spine, fixed: Spine): ((by: number) => number) => {
  if (!isPoint(moving) || !isPoint(fixed)) return (by) => spineDistance(turnSpine(moving, by), fixed);
  const a = norm(fixed[0]);
  const b = norm(moving[0]);
  const level = heading(moving[0]) - heading(fixed[0]);
  return (by) => Math.sqrt(Math.max(0, a * a + b * b - 2 * a * b * Math.cos(level - by)));
};

const far = (spine: Spine): number => Math.max(...spine.map(norm));

/** A pair, one of which turns, as a test of the angle; `drawnAt` is the clocking at which the cuts are drawn. */
export const pairTest = (pair: Pair, drawnAt: number): AngleTest => {
  const moving: Cut = pair.a.turns ? pair.a : pair.b;
  const fixed: Cut = pair.a.turns ? pair.b : pair.a;
  const pocket = pair.b.slices[0]?.r0 ?? 0;
  const apartBy = apartAfter(moving.spine, fixed.spine);
  const margin = (clocking: number): number => {
    const apart = apartBy(clocking - drawnAt);
    if (pair.within !== null && apart < pocket) {
      const turned = turnSpine(moving.spine, clocking - drawnAt);
      const [hole, axis] = pair.a.turns ? [turned, fixed.spine] : [fixed.spine, turned];
      return pair.within - Math.max(...hole.map((p) => signedToSpine(p, axis)));
    }
    return apart - pair.reach - pair.limit;
  };
  const wanted = [pair.reach + pair.limit, ...(pair.within === null ? [] : [pair.within, pocket])];
  return {
    id: 'web-between-cuts',
    of: [pair.a.id, pair.b.id],
    margin,
    turns: wanted.flatMap((w) => turnsToDistance(moving.spine, fixed.spine, w)).map((x) => x + drawnAt),
    web: pair.limit,
    rate: Math.min(far(moving.spine), far(fixed.spine)) + spanOf(moving.spine) + spanOf(fixed.spine),
  };
};

/** Two cuts whose spines must stay `least` apart, or else come nearer than `byDesign`. */
export const spineTest = (
  id: CheckId,
  of: readonly string[],
  moving: Spine,
  fixed: Spine,
  least: number,
  byDesign: number,
  drawnAt: number,
): AngleTest => {
  const apartBy = apartAfter(moving, fixed);
  return {
    id,
    of,
    margin: (clocking) => {
      const apart = apartBy(clocking - drawnAt);
      return apart < byDesign ? byDesign - apart : apart - least;
    },
    turns: [least, ...(byDesign > 0 ? [byDesign] : [])]
      .flatMap((w) => turnsToDistance(moving, fixed, w))
      .map((x) => x + drawnAt),
    web: null,
    rate: Math.min(far(moving), far(fixed)) + spanOf(moving) + spanOf(fixed),
  };
};
