import { type Ruler, longRuler } from '../sheet/ruler.js';
import type { Grid } from './grid.js';

const INSET = 12;
const END = 6;

/** Rulers that run over all joins, along the foot and the left of the joined drawing: whole tens of mm, template mm. */
export const longRulersOf = (grid: Grid): readonly Ruler[] => {
  const { covered, longRulers } = grid;
  const words = (mm: number): string => `${mm} mm between the end marks: measure again once the sheets are glued`;
  const room = (from: number, to: number): number => Math.floor((to - END - from - INSET) / 10) * 10;
  const out: Ruler[] = [];
  if (longRulers.across !== null) {
    const from = { x: covered.left + INSET, y: longRulers.across };
    const length = room(covered.left, covered.right);
    out.push(longRuler(from, { x: from.x + length, y: from.y }, words(length)));
  }
  if (longRulers.up !== null) {
    const from = { x: longRulers.up, y: covered.bottom + INSET };
    const length = room(covered.bottom, covered.top);
    out.push(longRuler(from, { x: from.x, y: from.y + length }, words(length)));
  }
  return out;
};
