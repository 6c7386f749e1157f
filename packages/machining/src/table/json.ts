import { toDegrees } from '@fayplate/core';
import type { MachinistTable } from '../types.js';

/**
 * The table as `table --json` gives it, without the document's head: mm, degrees, numbers not rounded except `set`,
 * which is what the machine is set to.
 */
export const tableJson = (t: MachinistTable): object => ({
  origin: t.origin,
  horizontal: t.horizontal,
  axes: t.axes,
  unit: t.unit,
  step: t.step,
  rounding: t.rounding,
  turn: toDegrees(t.motion.turn),
  rows: t.rows.map((r) => ({
    n: r.n,
    hole: r.hole,
    x: r.x,
    y: r.y,
    set: [r.set.x, r.set.y],
    via: r.via === null ? null : [r.via.x, r.via.y],
    tool: r.tool,
    tool_diameter: r.toolDiameter,
    op: r.op,
    depth: r.depth,
    side: r.side,
    ...(r.setting === undefined ? {} : { setting: r.setting }),
    speed: r.speed,
    feed: r.feed,
    note: r.note,
    limits: r.limits,
    depth_limits: r.depthLimits,
    passes: r.passes,
    tool_length: r.toolLength,
  })),
  setups: t.setups,
  checks: t.checks.map((c) => ({
    between: c.between,
    centres: c.centres,
    over_pins: c.overPins,
    gap: c.gap,
    reading: c.reading,
    by: c.instrument,
    expect: c.expect,
    needed: c.why === 'needed',
  })),
  travel: { table_order: t.travel.tableOrder, as_listed: t.travel.asListed },
  by_hand: {
    handwheel: t.byHand.handwheel,
    dividing:
      t.byHand.dividing === null
        ? null
        : {
            ...t.byHand.dividing,
            holes: t.byHand.dividing.holes.map((h) => ({
              ...h,
              angle: toDegrees(h.angle),
              index: { ...h.index, error: toDegrees(h.index.error) },
            })),
          },
    ...(t.byHand.rotary === undefined
      ? {}
      : {
          rotary: {
            ...t.byHand.rotary,
            step: toDegrees(t.byHand.rotary.step),
            holes: t.byHand.rotary.holes.map((h) => ({ ...h, angle: toDegrees(h.angle), set: toDegrees(h.set) })),
          },
        }),
    routes: t.byHand.routes.map((r) => ({
      name: r.name,
      says: r.says,
      holes: r.holes,
      plus_minus: r.plusMinus,
      source: r.source,
      too_coarse_for: r.tooCoarseFor,
    })),
  },
  ok: t.plateOk && t.clear.every((c) => c.ok),
  blank: t.blank,
  zero: { from_left: -t.blank.left, from_bottom: -t.blank.bottom },
  stock: t.stock,
  drilling: { plus_minus: t.drilling.plusMinus, stated: t.drilling.stated },
  centres: t.centres,
  safe_plane: t.safePlane,
  clear: t.clear,
  work: t.work ?? [],
  notes: t.notes,
});
