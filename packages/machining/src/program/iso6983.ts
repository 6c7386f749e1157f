import { type LengthUnit, MM_PER_INCH, say } from '@fayplate/core';
import type { Plate, Side } from '@fayplate/plate';
import { AT_ASSEMBLY } from '../operations/hole.js';
import type { MachinistTable, TableRow } from '../types.js';
import { type Tape, dimension, feedWord, tape } from './block.js';
import { comment } from './comment.js';
import { cycleWords } from './cycle.js';

export interface ProgramOptions {
  /** Job or plate name for the first comment. */
  readonly name?: string;
  /** Every cut 2 in above where it belongs, spindle stopped. */
  readonly dryRun?: boolean;
  /** G20 / G21 for inch and millimetre, which most milling controls want, in place of the standard's G70 / G71. */
  readonly usualUnitWords?: boolean;
}

/** One program for each side that is cut. */
export interface Program {
  readonly side: Side;
  readonly text: string;
}

export type ProgramMade =
  | { readonly ok: true; readonly programs: readonly Program[] }
  | { readonly ok: false; readonly faults: readonly string[] };

/** Rapid moves from hole to hole go this high above the highest metal of the side, mm: over usual clamps (common practice 25 mm). */
export const SAFE = 25;
/** Feed starts this far above the highest metal of the side, mm. */
export const FEED_FROM = 2;

/**
 * Programs of a table in the words of ISO 6983-1: absolute, unit stated, feed per minute, Z zero on the flat of the side that is uppermost,
 * retract to the safe plane between all holes, a stop at every tool. Refused where the plate's material, and with it every speed, is not known.
 */
export const iso6983 = (plate: Plate, table: MachinistTable, options: ProgramOptions = {}): ProgramMade => {
  const blind = table.rows.filter(
    (r) => cycleWords(r, table.unit, false) !== null && (r.speed === null || r.feed === null),
  );
  if (blind.length > 0)
    return {
      ok: false,
      faults: [
        'speeds are not known: name the plate’s material (plate: material: aluminium, for example) so that the program can state them',
      ],
    };
  return {
    ok: true,
    programs: table.setups.map(({ side }) => ({ side, text: sideProgram(plate, table, side, options) })),
  };
};

const sideProgram = (plate: Plate, table: MachinistTable, side: Side, options: ProgramOptions): string => {
  const own = table.rows.filter((r) => r.side === side);
  const rows = own.filter((r) => r.note !== AT_ASSEMBLY);
  const later = own.filter((r) => r.note === AT_ASSEMBLY).map((r) => r.hole);
  const proud = Math.max(
    0,
    ...plate.bores.filter((b) => b.kind === 'spigot' && b.side === side).map((b) => b.depth ?? 0),
  );
  const dry = options.dryRun === true;
  const lift = dry ? dryLift(rows) : 0;
  const levels = { safe: proud + SAFE + lift, feed: proud + FEED_FROM + lift, lift };
  const out = tape();
  writeHead(out, table, side, options, levels.safe, lift);
  for (const hole of later) out.say(comment('NOTE', `${hole} IS REAMED AT ASSEMBLY - NOT HERE`));
  const groups = byTool(rows);
  for (const [k, group] of groups.entries()) writeTool(out, group, k + 1, table.unit, levels, dry);
  out.block('G80', 'G00', dimension('Z', levels.safe, table.unit));
  out.block('M05');
  out.block('M30');
  return out.text();
};

/** 2 in, or as many whole inches as keep the deepest cut off the work. */
const dryLift = (rows: readonly TableRow[]): number =>
  Math.max(2, Math.ceil((Math.max(0, ...rows.map((r) => r.depth)) + 5) / MM_PER_INCH)) * MM_PER_INCH;

const writeHead = (
  out: Tape,
  table: MachinistTable,
  side: Side,
  options: ProgramOptions,
  safe: number,
  lift: number,
): void => {
  const { unit } = table;
  const speech = { unit, fraction: null };
  out.say(comment('FAYPLATE JOB', options.name ?? 'ADAPTER PLATE'));
  out.say(comment('SIDE', `${side} UPPERMOST - X RIGHT Y UP - Z ZERO ON ITS FLAT`));
  out.say(comment('ZERO', table.origin));
  if (side === 'A') out.say(comment('NOTE', 'PLATE TURNED OVER ABOUT ITS Y AXIS - X SIGNS ARE CHANGED'));
  out.say(comment('UNIT', `${unit === 'in' ? 'INCH' : 'MILLIMETRE'} - ABSOLUTE - SAFE PLANE ${say(safe, speech)}`));
  out.say(comment('NOTE', 'SAFE PLANE MUST CLEAR EVERY CLAMP - KEEP THE HOLES CLEAR BELOW'));
  out.say(comment('NOTE', 'AT THE STOP FOR EACH TOOL SET ITS LENGTH - Z ZERO ON THE FLAT'));
  if (lift > 0) out.say(comment('DRY RUN', `ALL Z RAISED BY ${say(lift, speech)} - SPINDLE STOPPED`));
  const unitWord = options.usualUnitWords === true ? { in: 'G20', mm: 'G21' }[unit] : { in: 'G70', mm: 'G71' }[unit];
  out.block('G17', unitWord, 'G90', 'G94', 'G80');
  out.block('G00', dimension('Z', safe, unit));
};

/** Runs of rows that one tool cuts without a change. */
const byTool = (rows: readonly TableRow[]): readonly (readonly TableRow[])[] => {
  const groups: TableRow[][] = [];
  for (const row of rows) {
    const last = groups.at(-1);
    if (last?.[0]?.tool === row.tool) last.push(row);
    else groups.push([row]);
  }
  return groups;
};

interface Levels {
  readonly safe: number;
  readonly feed: number;
  readonly lift: number;
}

const writeTool = (
  out: Tape,
  rows: readonly TableRow[],
  number: number,
  unit: LengthUnit,
  levels: Levels,
  dry: boolean,
): void => {
  const [first] = rows;
  if (first === undefined) return;
  const byHand = cycleWords(first, unit, dry) === null;
  out.block('M05');
  out.say(comment('TOOL', `${number} ${first.tool}${first.note === null || byHand ? '' : ` - ${first.note}`}`));
  if (first.op === 'tap') out.say(comment('NOTE', 'NEEDS A FLOATING TAP HOLDER - ELSE SKIP THIS TOOL AND TAP BY HAND'));
  if (first.op === 'countersink' || first.op === 'chamfer')
    out.say(comment('NOTE', 'DEPTH IS TO THE SHARP POINT OF ITS CONE'));
  out.block(`T${number}`, 'M06');
  out.block('M00');
  // Whoever fitted the tool, or cut by hand at a stop, may have left it anywhere: up before it goes across.
  out.block('G00', dimension('Z', levels.safe, unit));
  if (!byHand && !dry) out.block(`S${first.speed ?? 0}`, 'M03');
  let running: string | null = null;
  let speed = first.speed;
  for (const row of rows) {
    if (!byHand && !dry && row.speed !== speed) {
      speed = row.speed;
      out.block(`S${speed ?? 0}`);
    }
    const place = [dimension('X', row.set.x, unit), dimension('Y', row.set.y, unit)];
    const cycle = cycleWords(row, unit, dry);
    if (running !== null && (row.via !== null || cycle === null)) {
      out.block('G80');
      running = null;
    }
    if (row.via !== null) out.block('G00', dimension('X', row.via.x, unit), dimension('Y', row.via.y, unit));
    if (cycle === null) {
      out.block('G00', ...place);
      out.say(comment('HOLE', `${row.hole} ${row.op} ${row.note ?? ''}`));
      out.block('M00');
      out.block('G00', dimension('Z', levels.safe, unit));
      continue;
    }
    const full = [
      ...cycle,
      dimension('Z', levels.lift - row.depth, unit),
      dimension('R', levels.feed, unit),
      feedWord(row.feed ?? 0, unit, row.op === 'tap'),
    ];
    const key = full.join(' ');
    out.say(comment('HOLE', row.hole));
    if (key === running) out.block(...place);
    else out.block('G98', full[0] ?? '', ...place, ...full.slice(1));
    running = key;
  }
  if (running !== null) out.block('G80');
};
