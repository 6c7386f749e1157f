import { distance, norm } from '@fayplate/core';
import { edgeLimit, webLimit } from '../checks/limits.js';
import { pairsOf } from '../checks/web.js';
import { otherSide } from '../desk.js';
import type { Draft } from '../draft.js';
import { depthInside } from '../outline/inside.js';
import { type Footprint, footprintOf } from '../parts/footprint.js';
import { cutRadius } from '../solids/cut.js';
import { endGap } from '../solids/gap.js';
import { apartTest, pairTest, spineTest } from './pairs.js';
import type { AngleTest } from './test.js';

/** A draft at any clocking: the same job drawn again. */
export type Redraw = (clocking: number) => Draft;

const turning = (draft: Draft, feature: string | null): boolean => feature !== null && feature.startsWith(`${draft.desk.faces[1].name}.`);

/** Metal between everything that turns and everything that does not: all in closed form. */
const webTests = (draft: Draft): readonly AngleTest[] =>
  pairsOf(draft.desk, draft.cuts)
    .filter((p) => p.a.turns !== p.b.turns)
    .map((p) => pairTest(p, draft.desk.clocking));

/** Ends of cuts that come near each other: their metal grows with the distance between the axes, so one distance decides. */
const endTests = (draft: Draft): readonly AngleTest[] =>
  draft.cuts.flatMap((a, i) =>
    draft.cuts.slice(i + 1).flatMap((b) => {
      if (a.turns === b.turns || (a.what !== 'hole' && b.what !== 'hole')) return [];
      const { value } = webLimit(draft.desk, [a, b]);
      const gap = (apart: number): number => endGap(a, b, apart) ?? Infinity;
      if (gap(0) >= value) return [];
      let low = 0;
      let high = cutRadius(a) + cutRadius(b) + value;
      for (let k = 0; k < 60; k++) {
        const middle = (low + high) / 2;
        if (gap(middle) >= value) high = middle;
        else low = middle;
      }
      // A hole that comes out on a pocket's floor meets it there by design.
      const pocket = [a, b].find((c) => c.what !== 'hole');
      const [moving, fixed] = a.turns ? [a, b] : [b, a];
      return [spineTest('floor between cuts', moving, fixed, high, pocket === undefined ? 0 : cutRadius(pocket), draft.desk.clocking)];
    }),
  );

/** Sockets beside heads, and seats beside holes, on the same side: closed form as well. */
const roomTests = (draft: Draft): readonly AngleTest[] =>
  draft.holes.flatMap((hole) => {
    const head = hole.fastening?.head ?? null;
    if (head === null || head.kind === 'countersunk screw' || hole.sink !== null) return [];
    return draft.holes.flatMap((other, i) => {
      if (turning(draft, hole.feature) === turning(draft, other.feature)) return [];
      const [moving, fixed] = turning(draft, hole.feature) ? [hole, other] : [other, hole];
      const next = other.fastening?.head ?? null;
      const out: AngleTest[] = [];
      if (next !== null && next.kind !== 'countersunk screw' && next.side === head.side && next.proud > 0)
        out.push(apartTest('room for the socket', [hole.id, other.id], moving, fixed, head.socket / 2 + next.diameter / 2, draft.desk.clocking));
      const z = head.side === 'A' ? 0 : draft.desk.thickness;
      const slices = draft.cuts[i]?.slices ?? [];
      const mouth = Math.max(0, ...slices.flatMap((s) => [...(Math.abs(s.z0 - z) < 1e-9 ? [s.r0] : []), ...(Math.abs(s.z1 - z) < 1e-9 ? [s.r1] : [])]));
      if (mouth > 0 && other.slot === null) out.push(apartTest('seat of the nut or head', [hole.id, other.id], moving, fixed, mouth + head.diameter / 2, draft.desk.clocking));
      return out;
    });
  });

/** Greatest distance of anything on the plate from its origin: nothing moves faster than this for each radian. */
const reachOf = (draft: Draft): number => Math.max(1, ...draft.cuts.flatMap((c) => c.spine.map((p) => norm(p) + cutRadius(c))), ...draft.bores.map((b) => norm(b) + b.diameter / 2));

/** Holes and rims from the edge, where the outline's own margin does not settle it whatever the angle. */
const edgeTests = (draft: Draft, redraw: Redraw): readonly AngleTest[] => {
  const { desk } = draft;
  const spec = desk.spec.outline;
  if (spec.shape === 'round') return [];
  const limit = edgeLimit(desk);
  const outlineTurns = spec.shape === 'like' && spec.face === desk.faces[1].name;
  const rate = 2 * reachOf(draft);
  return draft.cuts.flatMap((cut, i) => {
    const hole = draft.holes[i];
    const needs: number[] = [cutRadius(cut) + (hole === undefined || hole.sink !== null ? webLimit(desk, [cut]).value : 0)];
    if (hole !== undefined) needs.push(limit.unit === 'mm' ? limit.value : limit.value * Math.max(hole.diameter, hole.thread?.major ?? 0));
    const need = hole !== undefined && hole.sink === null ? (needs[1] ?? 0) : Math.max(...needs);
    const settled = spec.shape === 'like' ? cut.turns === outlineTurns : cutRadius(cut) + spec.margin >= need - 1e-9;
    if (settled) return [];
    const margin = (clocking: number): number => {
      const at = redraw(clocking);
      return Math.min(...(at.cuts[i]?.spine ?? []).map((p) => depthInside(p, at.outline.path))) - need;
    };
    return [{ rule: 'hole to edge', of: [cut.id, 'outline'], margin, turns: null, web: null, rate }];
  });
};

/** mm by which something round stays clear of a part; the part's openings let it in. */
const clearOf = (footprint: Footprint, at: { x: number; y: number }, radius: number): number => {
  if (footprint.path === null) return Infinity;
  const outside = -(depthInside(at, footprint.path) + radius);
  return Math.max(outside, ...footprint.openings.map((o) => o.radius - distance(o.centre, at) - radius));
};

/** Nuts and heads that stand proud on the other part's side, and those that have to be reached past it. */
const partTests = (draft: Draft, redraw: Redraw): readonly AngleTest[] => {
  const rate = 2 * reachOf(draft);
  const heads = draft.holes.flatMap((h, i) => (h.fastening?.head == null ? [] : [{ i, head: h.fastening.head, own: turning(draft, h.feature) ? 1 : 0 }]));
  const over = (at: Draft, i: number, radius: number, side: 'A' | 'B'): number => {
    const hole = at.holes[i];
    return hole === undefined ? Infinity : clearOf(footprintOf(at.desk, side === 'A' ? 0 : 1), hole, radius);
  };
  // A head on the far side of its own face looks at the other part, which turns relative to it.
  const across = heads.filter((h) => h.head.side === otherSide(h.own === 0 ? 'A' : 'B'));
  const under = across
    .filter((h) => h.head.proud > 0)
    .map((h): AngleTest => ({ rule: `${h.head.kind} under the other part`, of: [draft.holes[h.i]?.id ?? ''], margin: (c) => over(redraw(c), h.i, h.head.diameter / 2, h.head.side), turns: null, web: null, rate }));
  const sides = ([0, 1] as const).map((own) => across.filter((h) => h.own === own));
  if (sides.some((s) => s.length === 0)) return under;
  const reached = (at: Draft, own: 0 | 1): number =>
    Math.min(...(sides[own] ?? []).map((h) => over(at, h.i, Math.max(h.head.socket, h.head.diameter) / 2, h.head.side)));
  const order: AngleTest = {
    rule: 'fasteners out of reach once the other part is on',
    of: [...draft.desk.spec.between],
    margin: (c) => {
      const at = redraw(c);
      return Math.max(reached(at, 0), reached(at, 1));
    },
    turns: null,
    web: null,
    rate,
  };
  return [...under, order];
};

/** Everything that turning the second face can change. */
export const angleTests = (draft: Draft, redraw: Redraw): readonly AngleTest[] => [
  ...webTests(draft),
  ...endTests(draft),
  ...roomTests(draft),
  ...edgeTests(draft, redraw),
  ...partTests(draft, redraw),
];
