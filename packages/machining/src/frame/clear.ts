import { type Box, type Point, apply } from '@fayplate/core';
import type { MachineSpec } from '@fayplate/job';
import type { ToolGroup } from '../operations/plan.js';
import type { ClampGap } from '../types.js';
import type { TableAxes } from './axes.js';

/** Least metal or air between a cut and a clamp or jaw, mm (common practice: room for a slip). */
export const CLAMP_ROOM = 2;

/** Clamps and jaws as upright boxes in the table's axes; the job measures them from the blank's lower left corner, side B uppermost. */
export const clampBoxes = (axes: TableAxes, machine: MachineSpec | null): readonly Box[] =>
  (machine?.clamps ?? []).map(({ from, to }) => ({
    left: axes.blank.left + Math.min(from.x, to.x),
    right: axes.blank.left + Math.max(from.x, to.x),
    bottom: axes.blank.bottom + Math.min(from.y, to.y),
    top: axes.blank.bottom + Math.max(from.y, to.y),
  }));

/** For every clamp or jaw the cut that comes nearest to it; drill exits included, for a through hole leaves below where it went in. */
export const clampGaps = (
  groups: readonly ToolGroup[],
  axes: TableAxes,
  clamps: readonly Box[],
): readonly ClampGap[] => {
  const cuts = groups.flatMap((g) => g.cuts).map((cut) => ({ cut, at: apply(axes.motion, cut.at) }));
  return clamps.flatMap((box, k): readonly ClampGap[] => {
    const nearest = cuts
      .map(({ cut, at }) => ({ cut, gap: fromBox(at, box) - Math.max(cut.toolDiameter, cut.limits?.[1] ?? 0) / 2 }))
      .reduce<{ cut: (typeof cuts)[number]['cut']; gap: number } | null>(
        (best, c) => (best === null || c.gap < best.gap ? c : best),
        null,
      );
    return nearest === null
      ? []
      : [{ clamp: k + 1, hole: nearest.cut.hole, op: nearest.cut.op, gap: nearest.gap, ok: nearest.gap >= CLAMP_ROOM }];
  });
};

/** Distance from a box; below zero inside it. */
const fromBox = (p: Point, box: Box): number => {
  const dx = Math.max(box.left - p.x, p.x - box.right);
  const dy = Math.max(box.bottom - p.y, p.y - box.top);
  return dx <= 0 && dy <= 0 ? Math.max(dx, dy) : Math.hypot(Math.max(dx, 0), Math.max(dy, 0));
};
