import { type Point, apply } from '@fayplate/core';
import type { MachineSpec } from '@fayplate/job';
import type { ToolGroup } from '../operations/plan.js';
import type { ClampGap } from '../types.js';
import type { TableAxes } from './axes.js';

/** Least metal or air between a cut and a clamp or jaw, mm (common practice: room for a slip). */
export const CLAMP_ROOM = 2;

/**
 * For every clamp or jaw the cut that comes nearest to it; drill exits included, for a through hole leaves below where it went in.
 * A clamp is an upright rectangle measured from the blank's lower left corner, as the plate lies with side B uppermost.
 */
export const clampGaps = (groups: readonly ToolGroup[], axes: TableAxes, machine: MachineSpec | null): readonly ClampGap[] => {
  const cuts = groups.flatMap((g) => g.cuts).map((cut) => ({ cut, at: apply(axes.motion, cut.at) }));
  return (machine?.clamps ?? []).flatMap((clamp, k): readonly ClampGap[] => {
    const corner = { x: axes.blank.left, y: axes.blank.bottom };
    const box = { a: shifted(clamp.from, corner), b: shifted(clamp.to, corner) };
    const nearest = cuts
      .map(({ cut, at }) => ({ cut, gap: fromBox(at, box.a, box.b) - cut.toolDiameter / 2 }))
      .reduce<{ cut: (typeof cuts)[number]['cut']; gap: number } | null>((best, c) => (best === null || c.gap < best.gap ? c : best), null);
    return nearest === null ? [] : [{ clamp: k + 1, hole: nearest.cut.hole, op: nearest.cut.op, gap: nearest.gap, ok: nearest.gap >= CLAMP_ROOM }];
  });
};

const shifted = (p: Point, by: Point): Point => ({ x: p.x + by.x, y: p.y + by.y });

/** Distance from a box with opposite corners a and b; below zero inside it. */
const fromBox = (p: Point, a: Point, b: Point): number => {
  const dx = Math.max(Math.min(a.x, b.x) - p.x, p.x - Math.max(a.x, b.x));
  const dy = Math.max(Math.min(a.y, b.y) - p.y, p.y - Math.max(a.y, b.y));
  return dx <= 0 && dy <= 0 ? Math.max(dx, dy) : Math.hypot(Math.max(dx, 0), Math.max(dy, 0));
};
