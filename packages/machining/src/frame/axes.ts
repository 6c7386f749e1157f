import {
  type Box,
  type LengthUnit,
  type Motion,
  type Point,
  apply,
  compose,
  distance,
  heading,
  movePath,
  pathBox,
  rotation,
  say,
  sayNumber,
  subtract,
  translation,
} from '@fayplate/core';
import type { Job, MachineSpec } from '@fayplate/job';
import type { MatedFace, Plate } from '@fayplate/plate';
import type { ToolGroup } from '../operations/plan.js';
import type { Blank, ClampGap, TableOptions } from '../types.js';
import { blankAround, cornerOf, cornerPoint } from './blank.js';
import { type NamedPlace, placeNames, placeOf } from './places.js';

export interface TableAxes {
  readonly origin: string;
  readonly horizontal: string | null;
  /** The plate lies turned by a quarter, so that the table reaches all of it; left out: it does not. */
  readonly quarter?: true;
  /** Plate frame → table axes. */
  readonly motion: Motion;
  readonly blank: Blank;
}

type AxesMade =
  | { readonly ok: true; readonly axes: TableAxes }
  | { readonly ok: false; readonly faults: readonly string[] };

/**
 * The table's axes from the origin and horizontal line asked for, or with the plate turned a `quarter`; what is wrong
 * with them otherwise.
 */
export const tableAxes = (
  plate: Plate,
  job: Job,
  options: TableOptions,
  mated: readonly MatedFace[] = [],
  quarter = false,
): AxesMade => {
  const faults: string[] = [];
  const find = (text: string): NamedPlace | null => {
    const place = placeOf(text, plate, job, mated);
    if (place === null)
      faults.push(
        `there is no place “${text}” on the plate; say one of ${placeNames(plate).join(', ')}, “middle H1 H2” or ` +
          '“lower left corner”',
      );
    return place;
  };
  const [from, to] = options.horizontal ?? [null, null];
  const a = from === null ? null : find(from);
  const b = to === null ? null : find(to);
  const level = a !== null && b !== null;
  if (level && distance(a.at, b.at) < 1e-6)
    faults.push(`“${a.name}” and “${b.name}” lie in one place: a line needs two`);
  const turned = level ? rotation(-heading(subtract(b.at, a.at))) : rotation(quarter ? Math.PI / 2 : 0);
  const text = options.origin ?? plate.faces[0];
  const corner = cornerOf(text);
  const place = corner === null ? find(text) : null;
  const around = blankAround(plate.outline.whole ?? plate.outline.path, turned, job.machine, job.units);
  if (around === null) faults.push(tooSmall(plate, turned, job, options.unit ?? job.units));
  if (faults.length > 0 || around === null || (corner === null && place === null)) return { ok: false, faults };
  const zero = corner === null ? apply(turned, place?.at ?? { x: 0, y: 0 }) : cornerPoint(around, corner);
  return {
    ok: true,
    axes: {
      origin: corner === null ? (place?.name ?? text) : `${corner} corner of the blank`,
      horizontal: level ? `${a.name} to ${b.name}` : null,
      ...(quarter && !level ? { quarter: true as const } : {}),
      motion: compose(translation(-zero.x, -zero.y), turned),
      blank: { ...around, left: around.left - zero.x, bottom: around.bottom - zero.y },
    },
  };
};

const tooSmall = (plate: Plate, turned: Motion, job: Job, unit: LengthUnit): string => {
  const own = job.machine?.blank ?? { width: 0, height: 0 };
  const box = pathBox(movePath(turned, plate.outline.whole ?? plate.outline.path));
  const size = (w: number, h: number): string =>
    `${sayNumber(w, { unit, fraction: null }, unit === 'in' ? 2 : 1)} × ` +
    say(h, { unit, fraction: null }, unit === 'in' ? 2 : 1);
  return (
    `the blank of ${size(own.width, own.height)} does not hold the plate as it lies, ` +
    `${size(box.right - box.left, box.top - box.bottom)}: give a ` +
    'larger blank, or turn the plate by another horizontal line'
  );
};

/** Least metal or air between a cut and a clamp or jaw, mm (common practice: room for a slip). */
export const CLAMP_ROOM = 2;

/**
 * Clamps and jaws as upright boxes in the table's axes; the job measures them from the blank's lower left corner, side
 * B uppermost.
 */
export const clampBoxes = (axes: TableAxes, machine: MachineSpec | null): readonly Box[] =>
  (machine?.clamps ?? []).map(({ from, to }) => ({
    left: axes.blank.left + Math.min(from.x, to.x),
    right: axes.blank.left + Math.max(from.x, to.x),
    bottom: axes.blank.bottom + Math.min(from.y, to.y),
    top: axes.blank.bottom + Math.max(from.y, to.y),
  }));

/**
 * For every clamp or jaw the cut that comes nearest to it; drill exits included, for a through hole leaves below where
 * it went in.
 */
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
export const fromBox = (p: Point, box: Box): number => {
  const dx = Math.max(box.left - p.x, p.x - box.right);
  const dy = Math.max(box.bottom - p.y, p.y - box.top);
  return dx <= 0 && dy <= 0 ? Math.max(dx, dy) : Math.hypot(Math.max(dx, 0), Math.max(dy, 0));
};
