import { exactFraction } from '@fayplate/core';
import type { MachineSpec } from '@fayplate/job';
import type { Plate } from '@fayplate/plate';
import type { MachinistTable, TableRow } from '../types.js';

/** One tool of the table, in the order of use. */
export interface TableTool {
  readonly tool: string;
  /** What it does, each operation once. */
  readonly ops: readonly string[];
  readonly holes: readonly string[];
  /** Why it may have to be bought or borrowed; null where a usual set has it. */
  readonly unusual: string | null;
}

/**
 * The usual sets: drills to half an inch or 13 mm, taps to M12 or 1/2 in, end mills to 20 mm, boring heads to about 3
 * in (common practice).
 */
const SET = { drill: 13.01, tap: 12.71, mill: 20.01, bore: 80 } as const;

const near = (steps: number): boolean => Math.abs(steps - Math.round(steps)) < 1e-6;

/** Coarse threads to the largest of a usual set of taps. */
const usualTap = (plate: Plate, { hole, toolDiameter }: TableRow): boolean => {
  const name = plate.holes.find((h) => h.id === hole)?.thread?.name ?? '';
  return toolDiameter <= SET.tap && (name.endsWith(' UNC') || (name.startsWith('M') && !name.includes('x')));
};

const drillWords = (r: TableRow): string | null => {
  if (r.toolDiameter > SET.drill) return 'larger than the usual sets';
  const whole = near(r.toolDiameter * 2) || exactFraction(r.toolDiameter) !== null;
  return whole ? null : 'between the sizes of the usual sets';
};

const unusualWords = (r: TableRow, plate: Plate, machine: MachineSpec | null): string | null => {
  const has = (own: MachineSpec['drills']): boolean | null =>
    own === null || own.length === 0 ? null : own.some((d) => Math.abs(d.diameter - r.toolDiameter) < 0.005);
  const listed = r.op === 'ream' ? has(machine?.reamers ?? null) : has(machine?.drills ?? null);
  switch (r.op) {
    case 'spot':
    case 'face':
    case 'chamfer':
    case 'countersink':
      return null;
    case 'pilot':
    case 'drill':
      return listed === null ? drillWords(r) : listed ? null : 'not among your drills';
    case 'ream':
      return listed === true ? null : 'a reamer of its own size';
    case 'tap':
      return usualTap(plate, r) ? null : 'not in the usual sets of taps';
    case 'counterbore':
    case 'spotface':
      return 'a cutter with its own pilot';
    case 'mill':
      return r.toolDiameter > SET.mill ? 'a large end mill' : null;
    case 'bore':
    case 'turn':
      return r.toolDiameter > SET.bore ? 'wider than most boring heads reach' : null;
    default:
      return r.op satisfies never;
  }
};

/** Every tool once, in the order in which the table takes it up first, with what is unusual about it. */
export const tableTools = (t: MachinistTable, plate: Plate, machine: MachineSpec | null): readonly TableTool[] => {
  const once = new Map<string, { readonly ops: Set<string>; readonly holes: Set<string>; unusual: string | null }>();
  for (const r of t.rows) {
    const one = once.get(r.tool) ?? { ops: new Set<string>(), holes: new Set<string>(), unusual: null };
    one.ops.add(r.op);
    if (r.op !== 'face') one.holes.add(r.hole);
    one.unusual ??= unusualWords(r, plate, machine);
    once.set(r.tool, one);
  }
  return [...once].map(([tool, { ops, holes, unusual }]) => ({ tool, ops: [...ops], holes: [...holes], unusual }));
};
