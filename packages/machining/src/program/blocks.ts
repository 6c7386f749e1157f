import { type LengthUnit, MM_PER_INCH, say } from '@fayplate/core';
import type { Contour, TableRow } from '../types.js';
import { contourMoves } from './contour.js';
import { type Dialect, type Levels, type Writing, isAlone, writeHead } from './head.js';
import { type BoxRow, boxRow, pocketMoves } from './pocket.js';
import { slotMoves } from './slot.js';
import { type Tape, comment, cycleWords, dimension, feedWord, tape } from './words.js';

/** Feed starts this far above the highest metal of the side, mm. */
const FEED_FROM = 2;

export const written = (w: Writing): string => {
  const { plate, table, side, options, rows } = w;
  const proud = Math.max(
    0,
    ...plate.bores.filter((b) => b.kind === 'spigot' && b.side === side).map((b) => b.depth ?? 0),
  );
  const dry = options.dryRun === true;
  const { contour } = w;
  const lift = dry ? dryLift([...rows.map((r) => r.depth), ...(contour?.passes.last ?? [])]) : 0;
  const levels = { safe: proud + table.safePlane + lift, feed: proud + FEED_FROM + lift, lift };
  const out = tape();
  writeHead(out, w, levels);
  const groups = byTool(rows);
  const box = w.title === 'pocket' || w.title === 'notch' ? boxRow(w) : null;
  const hold = { unit: table.unit, levels, dry, dialect: options.dialect ?? 'usual', box };
  for (const [k, group] of groups.entries()) writeTool(out, group, { ...hold, number: k + 1 });
  if (contour !== undefined) writeContour(out, contour, { ...hold, number: 1 });
  out.block('M30');
  return out.text();
};

/** 2 in, or as many whole inches as keep the deepest cut off the work. */
const dryLift = (depths: readonly number[]): number =>
  Math.max(2, Math.ceil((Math.max(0, ...depths) + 5) / MM_PER_INCH)) * MM_PER_INCH;

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

interface Hold {
  readonly number: number;
  readonly unit: LengthUnit;
  readonly levels: Levels;
  readonly dry: boolean;
  readonly dialect: Dialect;
  /** The pocket or notch that it is for; null for all else. */
  readonly box: BoxRow | null;
}

/**
 * One tool: fitted with the spindle up and stopped, its length taken up with the first move, and sent up again for the
 * next.
 */
const writeTool = (out: Tape, rows: readonly TableRow[], hold: Hold): void => {
  const [first] = rows;
  if (first === undefined) return;
  const { number, unit, levels, dry } = hold;
  const turns = (speed: number | null): void => {
    if (!dry) out.block(`S${speed ?? 0}`, 'M03');
  };
  const alone = isAlone(first);
  // A note on some of its cuts stands at those.
  const note = alone || rows.some((r) => r.note !== first.note) ? null : first.note;
  out.say(comment('TOOL', `${number} ${first.tool}${note === null ? '' : ` - ${note}`}`));
  if (first.op === 'tap') out.say(comment('NOTE', 'NEEDS A FLOATING TAP HOLDER - ELSE SKIP THIS TOOL AND TAP BY HAND'));
  if (first.op === 'countersink' || first.op === 'chamfer')
    out.say(comment('NOTE', 'DEPTH IS TO THE SHARP POINT OF ITS CONE'));
  out.block(`T${number}`, 'M06');
  out.block('M00');
  turns(first.speed);
  out.block('G00', 'G43', dimension('Z', levels.safe, unit), `H${number}`);
  const running =
    first.op !== 'mill'
      ? holes(out, rows, hold, turns)
      : hold.box === null
        ? slotMoves(out, rows, { ...hold, turns })
        : pocketMoves(out, hold.box, hold);
  if (running) out.block('G80');
  out.block('G00', dimension('Z', levels.safe, unit));
  out.block('M05');
  goHome(out, hold);
};

/** The end mill round the outline. */
const writeContour = (out: Tape, contour: Contour, hold: Hold): void => {
  const { number, unit, levels, dry } = hold;
  out.say(comment('TOOL', `${number} END MILL ${say(contour.cutter, { unit, fraction: null })}`));
  out.block(`T${number}`, 'M06');
  out.block('M00');
  if (!dry) out.block(`S${contour.speed ?? 0}`, 'M03');
  out.block('G00', 'G43', dimension('Z', levels.safe, unit), `H${number}`);
  contourMoves(out, contour, hold);
  out.block('G00', dimension('Z', levels.safe, unit));
  out.block('M05');
  goHome(out, hold);
};

/**
 * Up for the next tool: to the top of travel, or where the standard has no word for it to a stop at which the spindle
 * is raised.
 */
const goHome = (out: Tape, { dialect }: Hold): void => {
  if (dialect === 'usual') {
    out.block('G91', 'G28', 'Z0');
    out.block('G90', 'G49');
  } else {
    out.say(comment('NOTE', 'RAISE THE SPINDLE BY HAND'));
    out.block('M00');
    out.block('G49');
  }
};

/** Canned cycles at every place of one tool; whether one still runs at the end. */
const holes = (
  out: Tape,
  rows: readonly TableRow[],
  { unit, levels, dry }: Hold,
  turns: (speed: number | null) => void,
): boolean => {
  const apart = rows.some((r) => r.note !== rows[0]?.note);
  let running: string | null = null;
  let speed = rows[0]?.speed ?? null;
  for (const row of rows) {
    if (row.speed !== speed) {
      speed = row.speed;
      turns(speed);
    }
    const cycle = cycleWords(row, unit, dry) ?? [];
    if (running !== null && row.via !== null) {
      out.block('G80');
      running = null;
    }
    if (row.via !== null) out.block('G00', dimension('X', row.via.x, unit), dimension('Y', row.via.y, unit));
    const place = [dimension('X', row.set.x, unit), dimension('Y', row.set.y, unit)];
    const full = [
      ...cycle,
      dimension('Z', levels.lift - row.depth, unit),
      dimension('R', levels.feed, unit),
      feedWord(row.feed ?? 0, unit, row.op === 'tap'),
    ];
    const key = full.join(' ');
    out.say(comment('HOLE', apart && row.note !== null ? `${row.hole} - ${row.note}` : row.hole));
    if (key === running) out.block(...place);
    else out.block('G98', full[0] ?? '', ...place, ...full.slice(1));
    running = key;
  }
  return running !== null;
};
