import type { LengthUnit, Point } from '@fayplate/core';
import { distance } from '@fayplate/core';
import { SLOT_END, SLOT_SIZE } from '../operations/hole.js';
import type { TableRow } from '../types.js';
import { type Tape, comment, dimension, feedWord } from './words.js';

interface SlotHold {
  readonly unit: LengthUnit;
  readonly levels: { readonly safe: number; readonly feed: number; readonly lift: number };
  readonly turns: (speed: number | null) => void;
}

/** An end mill takes half its diameter at a time in depth (common practice). */
const STEP = 0.5;

/**
 * A slot: to and fro along its middle, deeper at each end, then once round its flanks to its width. The cutter climbs
 * (anticlockwise round the inside), which is what a stiff machine does best.
 */
export const slotMoves = (out: Tape, rows: readonly TableRow[], { unit, levels }: SlotHold): boolean => {
  const ends = rows.filter((r) => r.note === SLOT_END);
  const size = rows.find((r) => r.note === SLOT_SIZE);
  const [a, b] = ends;
  if (a === undefined || b === undefined) return false;
  const f = feedWord(a.feed ?? 0, unit, false);
  // Straight down an end mill cuts with its weakest part.
  const down = feedWord((a.feed ?? 0) / 2, unit, false);
  const xy = (p: Point): readonly string[] => [dimension('X', p.x, unit), dimension('Y', p.y, unit)];
  const z = (depth: number): string => dimension('Z', levels.lift - depth, unit);
  out.say(comment('SLOT', a.hole));
  out.block('G00', ...xy(a.set));
  out.block('G01', dimension('Z', levels.feed, unit), down);
  const steps = Math.max(1, Math.ceil(a.depth / (STEP * a.toolDiameter)));
  for (let k = 1; k <= steps; k++) {
    out.block('G01', z((a.depth * k) / steps), down);
    out.block('G01', ...xy(k % 2 === 1 ? b.set : a.set), f);
  }
  if (size?.limits == null) return false;
  const off = ((size.limits[0] + size.limits[1]) / 2 - a.toolDiameter) / 2;
  const [from, to] = steps % 2 === 1 ? [b.set, a.set] : [a.set, b.set];
  const long = distance(from, to);
  const u = long < 1e-9 ? { x: 1, y: 0 } : { x: (to.x - from.x) / long, y: (to.y - from.y) / long };
  // The right-hand flank of the way from one end to the other, then round each end with the slot's middle on the left.
  const right = { x: u.y * off, y: -u.x * off };
  const beside = (p: Point, s: 1 | -1): Point => ({ x: p.x + s * right.x, y: p.y + s * right.y });
  const arc = (end: Point, centre: Point, start: Point): void =>
    out.block('G03', ...xy(end), dimension('I', centre.x - start.x, unit), dimension('J', centre.y - start.y, unit));
  out.block('G01', ...xy(beside(from, 1)));
  out.block('G01', ...xy(beside(to, 1)));
  arc(beside(to, -1), to, beside(to, 1));
  out.block('G01', ...xy(beside(from, -1)));
  arc(beside(from, 1), from, beside(from, -1));
  out.block('G01', ...xy(from));
  return false;
};
