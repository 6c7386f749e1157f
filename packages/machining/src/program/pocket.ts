import { type LengthUnit, type Path, type Point, add, distance, edgesOf, polar, say } from '@fayplate/core';
import { type BoreBox, type Plate, aboutSpine, rectangleSpine } from '@fayplate/plate';
import { SIDES } from '../operations/hole.js';
import type { MachinistTable, TableRow } from '../types.js';
import { type Tape, comment, dimension, feedWord } from './words.js';

/**
 * A pocket with straight sides, or a notch, as the machine is set for it: its place and its turn with the side
 * uppermost, mm and radians.
 */
export interface BoxRow {
  readonly box: BoreBox;
  readonly at: Point;
  readonly angle: number;
  readonly row: TableRow;
}

/** Straight sides as the machine is set for them, from the plate and the rows of their cuts. */
export const boxRow = ({
  plate,
  table,
  rows,
}: {
  readonly plate: Plate;
  readonly table: MachinistTable;
  readonly rows: readonly TableRow[];
}): BoxRow | null => {
  const row = rows.find((r) => r.note === SIDES);
  const box = plate.bores.find((b) => b.id === row?.hole)?.box;
  if (row === undefined || box === undefined) return null;
  const turn = box.angle + table.motion.turn;
  return { box, at: row.set, angle: row.side === 'A' ? Math.PI - turn : turn, row };
};

/**
 * An end mill takes half its diameter at a time in depth, and a little over half of it beside its last run (common
 * practice).
 */
const STEP = 0.5;
const BESIDE = 0.6;

/**
 * Round and round from the middle outward, mm: where the middle of a cutter runs, each run closed and
 * counter-clockwise, which climbs.
 */
const pocketRuns = ({ box, at, angle }: Pick<BoxRow, 'box' | 'at' | 'angle'>, cutter: number): readonly Path[] => {
  const off = (box.width - cutter) / 2;
  // A notch is cut over its edge by half the cutter, so that no ridge stays there.
  const ahead = box.length - box.behind - (box.notch === true ? 0 : cutter / 2);
  const back = box.behind - cutter / 2;
  const most = Math.min(off, (ahead + back) / 2);
  const rounds = Math.max(0, Math.ceil(most / (BESIDE * cutter) - 1e-9));
  const round = Math.max(0, box.corner - cutter / 2);
  return Array.from({ length: rounds + 1 }, (_, k) => {
    const inset = rounds === 0 ? 0 : (most * (rounds - k)) / rounds;
    const r = Math.max(0, round - inset);
    const spine = rectangleSpine(at, angle, [inset + r - back, ahead - inset - r], [inset + r - off, off - inset - r]);
    return aboutSpine(spine, r);
  });
};

/** What a person reads of it before the first move. */
export const pocketWords = (pocket: BoxRow | null, unit: LengthUnit): readonly string[] => {
  if (pocket === null) return [];
  const own = { unit, fraction: null };
  const { box, row } = pocket;
  const wide = `${say(box.width, own)} WIDE - CORNERS ${say(box.corner, own)} - MEASURE AND RUN AGAIN IF SMALL`;
  if (box.notch === true) return [`${row.hole} ${wide}`, 'IT STARTS OUTSIDE THE OUTLINE'];
  return [
    `${row.hole} ${say(box.length, own)} LONG ${wide}`,
    ...(row.depth > 0 ? ['CENTRE CUTTING END MILL - IT GOES DOWN IN THE MIDDLE'] : []),
  ];
};

/** Down by steps, at each of them from the middle out to the sides; a notch goes down outside the outline. */
export const pocketMoves = (
  out: Tape,
  pocket: BoxRow,
  { unit, levels }: { readonly unit: LengthUnit; readonly levels: { readonly feed: number; readonly lift: number } },
): boolean => {
  const { box, at, angle, row } = pocket;
  const f = feedWord(row.feed ?? 0, unit, false);
  // Straight down an end mill cuts with its weakest part.
  const down = feedWord((row.feed ?? 0) / 2, unit, false);
  const xy = (p: Point): readonly string[] => [dimension('X', p.x, unit), dimension('Y', p.y, unit)];
  const middle = add(at, polar(box.length / 2 - box.behind, angle));
  const start = box.notch === true ? add(at, polar(box.length - box.behind + row.toolDiameter, angle)) : middle;
  const runs = pocketRuns(pocket, row.toolDiameter);
  out.say(comment(box.notch === true ? 'NOTCH' : 'POCKET', row.hole));
  out.block('G00', ...xy(start));
  out.block('G01', dimension('Z', levels.feed, unit), down);
  const steps = Math.max(1, Math.ceil(row.depth / (STEP * row.toolDiameter)));
  for (let k = 1; k <= steps; k++) {
    if (k > 1) out.block('G01', ...xy(start), f);
    out.block('G01', dimension('Z', levels.lift - (row.depth * k) / steps, unit), down);
    for (const [i, run] of runs.entries()) {
      out.block('G01', ...xy(run.start), ...(i === 0 ? [f] : []));
      for (const [from, edge] of edgesOf(run)) {
        if (distance(from, edge.to) < 1e-9) continue;
        if (edge.kind === 'line') out.block('G01', ...xy(edge.to));
        else
          out.block(
            edge.ccw ? 'G03' : 'G02',
            ...xy(edge.to),
            dimension('I', edge.centre.x - from.x, unit),
            dimension('J', edge.centre.y - from.y, unit),
          );
      }
    }
  }
  out.block('G01', ...xy(start));
  return false;
};
