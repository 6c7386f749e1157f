import { type LengthUnit, type Point, apply, invert } from '@fayplate/core';
import type { Job } from '@fayplate/job';
import { type MatedFace, type Plate, type Side, solveStack, usualDrilling } from '@fayplate/plate';
import { dividing } from '../byhand/dividing.js';
import { handwheel } from '../byhand/handwheel.js';
import { rotary } from '../byhand/rotary.js';
import { routes } from '../byhand/routes.js';
import { checkDistances } from '../checks/distances.js';
import { contourOf } from '../contour/contour.js';
import { type TableAxes, clampBoxes, clampGaps, tableAxes } from '../frame/axes.js';
import { cornerOf, stockFor } from '../frame/blank.js';
import { finest } from '../frame/places.js';
import { toolLength } from '../operations/operation.js';
import { type ToolGroup, planCuts, sideCutFirst, speedsFor } from '../operations/plan.js';
import { shopOf } from '../operations/shop.js';
import { planReadings } from '../prove/plan.js';
import type { Approach } from '../travel/order.js';
import type { MachinistTable, Setup, Stock, TableMade, TableOptions, TableRow } from '../types.js';
import { inOrder, tableNotes } from './notes.js';
import { packingWords } from './packing.js';
import { type Settings, againWords, reachedOf, settingsFor } from './reach.js';
import { setup } from './setup.js';
import { faceCut, inTheWay, placeSide, sidesOf } from './sides.js';

/** Rapid moves go this high above the flat, over clamps and studs, where the job does not say, mm (common practice). */
const SAFE_PLANE = 50;

/** The usual plane, up to the next tenth of an inch in a table in inches. */
const usualPlane = (unit: LengthUnit): number =>
  unit === 'in' ? Math.ceil(SAFE_PLANE / 2.54 - 1e-9) * 2.54 : SAFE_PLANE;

/**
 * How far past a hole the table goes before it comes back from the stated side, mm: more than the slack of a worn screw
 * (common practice).
 */
const PAST = 2;

/**
 * The machinist's table of a plate: every cut placed, grouped by tool and put in the order of least travel, with what
 * to measure afterwards.
 * `mated` places a second face's centre where no bore of the plate does. Faults are words for the person who wrote the
 * options or the job.
 */
export const machinistTable = (
  plate: Plate,
  job: Job,
  options: TableOptions = {},
  mated: readonly MatedFace[] = [],
): TableMade => {
  const plain = tableAxes(plate, job, options, mated);
  const shop = shopOf(job.machine, job.units, plate);
  const groups = planCuts(plate, job, shop);
  const made = plain.ok ? turnedToReach(plain, groups, job, () => tableAxes(plate, job, options, mated, true)) : plain;
  const approach = approachOf(job, options);
  if (!made.ok || approach === 'unknown') {
    const missing =
      approach === 'unknown'
        ? [
            'the machine section does not say from which sides holes are approached: write, for example, ' +
              '“backlash: approach from -x -y”',
          ]
        : [];
    return { ok: false, faults: [...(made.ok ? [] : made.faults), ...missing] };
  }
  const { axes } = made;
  const unit = options.unit ?? job.units;
  const step = Math.max(job.machine?.step ?? finest(unit), finest(unit));
  const stock = stockFor(plate, job.machine, job.units, sideCutFirst(plate), thicknessWindow(job));
  const sides = sidesOf(groups, stock);
  const placed = sides
    .flatMap((side) => settingsOf(groups, side, axes, job))
    .map((s) => ({ ...s, ...placeSide(s.groups, axes, step, unit, approach) }));
  const speeds = speedsFor(plate.material?.name ?? null, job.machine?.topSpeed ?? null);
  const twice = placed.some((p) => p.side === stock.side && p.setting !== undefined);
  const facing =
    stock.faced > 0 ? [{ ...faceCut(stock, axes, plate, shop), ...(twice ? { setting: 1 as const } : {}) }] : [];
  const drilled = placed
    .flatMap((p) => p.rows.map((row) => ({ ...row, setting: p.setting })))
    .map(({ cut, at, set, via, widest, setting }): Omit<TableRow, 'n'> => ({
      hole: cut.hole,
      x: at.x,
      y: at.y,
      set,
      via,
      tool: cut.tool,
      toolDiameter: cut.toolDiameter,
      op: cut.op,
      depth: cut.depth,
      side: cut.side,
      ...(setting === undefined ? {} : { setting }),
      ...speeds(cut, widest),
      note: cut.note,
      limits: cut.limits ?? null,
      depthLimits: cut.depthLimits ?? null,
      passes: cut.passes ?? null,
      toolLength: toolLength(cut),
    }));
  const rows = [...facing, ...drilled].map((r, i): TableRow => ({ n: i + 1, ...r }));
  const plan = planReadings(plate, job);
  const clamps = clampBoxes(axes, job.machine);
  const clear = clampGaps(groups, axes, clamps);
  const contour =
    job.machine === null
      ? null
      : contourOf({
          plate,
          motion: axes.motion,
          blank: axes.blank,
          clamps,
          machine: job.machine,
          side: sides.at(-1) ?? 'B',
          unit,
        });
  const notes = tableNotes(plate, job, groups, axes, stock, unit, contour);
  const blocked = clear.filter((c) => !c.ok).map((c) => inTheWay(c, unit));
  const table = {
    origin: axes.origin,
    horizontal: axes.horizontal,
    axes: 'seen from side B',
    unit,
    step,
    motion: axes.motion,
    rows,
    setups: placed.map(({ side, setting, two }): Setup => {
      const own = setting === undefined ? { side } : { side, setting };
      if (setting === 2 && two !== null) {
        const setOf = (id: string): Point | null =>
          drilled.find((r) => r.side === side && r.hole === id && r.setting === 1)?.set ?? null;
        return { ...own, says: againWords(two, setOf, { unit, fraction: null }) };
      }
      const { says } = setup({ side, second: side !== sides[0], rows, axes, unit, tip: job.machine?.tip ?? null });
      return { ...own, says: side === sides[0] ? says : [says, ...packingWords(plate, groups, side, unit)].join(' ') };
    }),
    plan,
    checks: checkDistances(plate, plan),
    travel: {
      tableOrder: placed.reduce((s, p) => s + p.travel, 0),
      asListed: placed.reduce((s, p) => s + p.asListed, 0),
    },
    rounding: Math.max(0, ...drilled.map((r) => Math.hypot((r.side === 'A' ? -r.x : r.x) - r.set.x, r.y - r.set.y))),
    approach,
    blank: axes.blank,
    stock,
    drilling: {
      plusMinus: job.plate?.drilling ?? usualDrilling,
      stated: job.plate !== null && job.plate.drilling !== null,
    },
    centres: plate.centres,
    safePlane: job.machine?.safePlane ?? usualPlane(unit),
    room: job.machine?.room ?? null,
    plateOk: plate.ok,
    ...(contour === null ? {} : { contour }),
    ...(plate.work === undefined ? {} : { work: plate.work }),
    clamps,
    clear,
    notes: [...inOrder(notes), ...blocked],
    notesFor: { ...notes, setting: [...notes.setting, ...blocked] },
  };
  return { ok: true, table: { ...table, byHand: byHand(table, plate, job) } };
};

/**
 * Thicknesses of the plate alone that the job states by a ±, or that the stack bears at the worst, mm; null where
 * neither says any.
 */
const thicknessWindow = (job: Job): Stock['window'] => {
  const { thickness, thicknessWithin } = job.plate ?? {};
  if (typeof thickness === 'number' && thicknessWithin !== undefined)
    return [thickness - thicknessWithin, thickness + thicknessWithin];
  if (job.stack === null || thickness !== 'from stack') return null;
  const { worst, shims, spacer } = solveStack(job.stack);
  const under = shims.reduce((a, b) => a + b, spacer ?? 0);
  return worst === null ? null : [worst.from - under, worst.to - under];
};

type AxesFound = Extract<ReturnType<typeof tableAxes>, { readonly ok: true }>;

/**
 * Axes with the plate turned by a quarter, where the table reaches all cuts so and not as the plate is drawn, and
 * nobody has said how it lies.
 */
const turnedToReach = (
  plain: AxesFound,
  groups: readonly ToolGroup[],
  job: Job,
  quarter: () => ReturnType<typeof tableAxes>,
): ReturnType<typeof tableAxes> => {
  const travel = job.machine?.travel;
  if (travel === undefined || plain.axes.horizontal !== null) return plain;
  if (settingsFor(reachedOf(groups, plain.axes), travel).kind !== 'turned') return plain;
  const turned = quarter();
  return turned.ok ? turned : plain;
};

interface SideSetting {
  readonly side: Side;
  readonly setting?: 1 | 2;
  readonly groups: readonly ToolGroup[];
  readonly two: Extract<Settings, { readonly kind: 'two' }> | null;
}

/**
 * The settings in which one side is cut: two where its cuts lie farther apart than the table travels, and two settings
 * reach them.
 */
const settingsOf = (groups: readonly ToolGroup[], side: Side, axes: TableAxes, job: Job): readonly SideSetting[] => {
  const own = groups.filter((g) => g.side === side);
  const travel = job.machine?.travel;
  const two = travel === undefined ? null : settingsFor(reachedOf(own, axes), travel);
  if (two?.kind !== 'two') return [{ side, groups: own, two: null }];
  const only = (holes: readonly string[]): readonly ToolGroup[] =>
    own.flatMap((g) => {
      const cuts = g.cuts.filter((c) => holes.includes(c.hole));
      return cuts.length === 0 ? [] : [{ ...g, cuts }];
    });
  return [
    { side, setting: 1, groups: only(two.first), two },
    { side, setting: 2, groups: only(two.second), two },
  ];
};

const byHand = (
  table: Pick<MachinistTable, 'rows' | 'motion' | 'origin'>,
  plate: Plate,
  job: Job,
): MachinistTable['byHand'] => {
  const pitch = job.machine?.screwPitch ?? null;
  const head = job.machine?.dividingHead ?? null;
  const centre = cornerOf(table.origin) === null ? apply(invert(table.motion), { x: 0, y: 0 }) : { x: 0, y: 0 };
  const about = cornerOf(table.origin) === null ? table.origin : plate.faces[0];
  const round = job.machine?.rotaryTable;
  const turned = round === undefined ? null : rotary(plate, round, centre, about);
  return {
    ...(turned === null ? {} : { rotary: turned }),
    handwheel: pitch === null ? null : handwheel(table.rows, pitch, job.machine?.step ?? null),
    dividing: head === null ? null : dividing(plate, head, centre, about),
    routes: routes(plate, job),
  };
};

const approachOf = (job: Job, options: TableOptions): Approach | null | 'unknown' => {
  if (options.oneSided !== true) return null;
  const sides = job.machine?.backlash ?? null;
  return sides === null || (sides.x === 0 && sides.y === 0) ? 'unknown' : { ...sides, past: PAST };
};
