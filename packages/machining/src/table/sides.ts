import { type LengthUnit, type Point, apply, perUnit } from '@fayplate/core';
import type { Plate, Side } from '@fayplate/plate';
import { CLAMP_ROOM, type TableAxes } from '../frame/axes.js';
import { setPoint } from '../frame/places.js';
import { type Cut, toolLength } from '../operations/operation.js';
import type { ToolGroup } from '../operations/plan.js';
import type { Shop } from '../operations/shop.js';
import { type Approach, orderOfTools, viaPoint, wayLength } from '../travel/order.js';
import type { ClampGap, Stock, TableRow } from '../types.js';

export const sidesOf = (groups: readonly ToolGroup[], stock: Stock): readonly Side[] => {
  const cut = [...new Set(groups.map((g) => g.side))];
  return stock.faced > 0 && !cut.includes(stock.side) ? [stock.side, ...cut] : cut;
};

/** Names the whole of the metal in the column of holes. */
export const WHOLE_FACE = 'face';

/** What is taken off bought stock, before anything else; its place is the middle of the blank. */
export const faceCut = (stock: Stock, axes: TableAxes, plate: Plate, shop: Shop): Omit<TableRow, 'n'> => {
  const whole = plate.outline.blank.thickness;
  const raised = whole > plate.thickness + 1e-9;
  const at = { x: axes.blank.left + axes.blank.width / 2, y: axes.blank.bottom + axes.blank.height / 2 };
  return {
    hole: WHOLE_FACE,
    ...at,
    set: asCut(at, stock.side),
    via: null,
    tool: 'face mill or fly cutter',
    toolDiameter: Math.min(axes.blank.width, axes.blank.height),
    op: 'face',
    depth: stock.faced,
    side: stock.side,
    speed: null,
    feed: null,
    note: raised ? `to ${shop.say(whole)} over all, the top of what is raised` : null,
    limits: raised ? null : stock.window,
    depthLimits: null,
    passes: null,
    toolLength: toolLength({ op: 'face', toolDiameter: 0 }),
  };
};

interface Placed {
  readonly cut: Cut;
  /** Table axes as seen from side B. */
  readonly at: Point;
  readonly set: Point;
  readonly via: Point | null;
  readonly widest: number;
}

/** Turned over about its y axis, the plate shows x the other way. */
const asCut = (p: Point, side: Side): Point => (side === 'A' ? { x: -p.x, y: p.y } : p);

export const placeSide = (
  groups: readonly ToolGroup[],
  axes: TableAxes,
  step: number,
  unit: LengthUnit,
  approach: Approach | null,
) => {
  const placed = groups.map((g) => {
    const widest = Math.max(...g.cuts.map((c) => c.toolDiameter));
    return g.cuts.map((cut) => {
      const at = apply(axes.motion, cut.at);
      return { cut, at, set: setPoint(asCut(at, cut.side), step, unit), via: null, widest };
    });
  });
  const orders = orderOfTools(
    placed.map((g) => g.map((p) => p.set)),
    approach,
  );
  const inOrder: readonly Placed[] = placed.flatMap((g, k) => (orders[k] ?? []).flatMap((i) => g[i] ?? []));
  return {
    rows: inOrder.map((p, i): Placed => ({ ...p, via: viaPoint(inOrder[i - 1]?.set ?? null, p.set, approach) })),
    travel: wayLength(
      inOrder.map((p) => p.set),
      approach,
    ),
    asListed: wayLength(
      placed.flat().map((p) => p.set),
      approach,
    ),
  };
};

export const inTheWay = (c: ClampGap, unit: LengthUnit): string => {
  const say = (mm: number): string => `${(mm / perUnit(unit)).toFixed(unit === 'in' ? 3 : 1)} ${unit}`;
  return c.gap < 0
    ? `Clamp ${c.clamp} is in the way of ${c.hole}: the ${c.op} cuts ${say(-c.gap)} into it. Move the clamp.`
    : `Clamp ${c.clamp} is only ${say(c.gap)} from the ${c.op} of ${c.hole}; keep ${say(CLAMP_ROOM)}.`;
};
