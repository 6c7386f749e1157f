import { type LengthUnit, type Path, type Point, add, edgesOf, say, scale } from '@fayplate/core';
import { cutAt, nearestAlong, stepLength } from '../contour/along.js';
import { headingAt } from '../contour/hollow.js';
import type { Contour } from '../types.js';
import { type Tape, comment, dimension, feedWord } from './words.js';

interface ContourHold {
  readonly unit: LengthUnit;
  readonly levels: { readonly safe: number; readonly feed: number; readonly lift: number };
}

/** Places more than a hole's: an arc's ends must lie on its circle, and the outline keeps to 0.0001 mm. */
const FINER: Readonly<Record<LengthUnit, number>> = { mm: 1, in: 2 };

/** What a person at the machine has to know of it before it runs. */
export const contourWords = (c: Contour, unit: LengthUnit): readonly string[] => {
  const own = { unit, fraction: null };
  const [tab] = c.tabs;
  return [
    `END MILL DIA ${say(c.cutter, own)} - ITS RADIUS ${say(c.cutter / 2, own)} IS IN THE PATH`,
    c.rough === null
      ? 'TO SIZE AT ONCE - A HOLLOW LEAVES NO ROOM FOR ROUGHING'
      : `ROUGHING LEAVES ${say(c.leave, own)} - LAST PASS TO SIZE`,
    tab === undefined
      ? 'NO TABS - HOLD THE PLATE BY ITS HOLES OR IT COMES FREE'
      : `${c.tabs.length} TABS ${say(tab.wide, own)} WIDE FROM ${say(c.tabTop, own)} DEEP - SAW AND FILE THEM`,
    'OFFCUTS MAY COME FREE - CLAMP THEM - KEEP HANDS OFF',
    'STARTS AND ENDS OFF THE METAL',
  ];
};

/** Once round at one depth: in from off the metal on an arc that touches the path, round, and out on another. */
const round = (out: Tape, path: Path, depth: number, c: Contour, { unit, levels }: ContourHold): void => {
  const xy = (p: Point): readonly string[] => [
    dimension('X', p.x, unit, FINER[unit]),
    dimension('Y', p.y, unit, FINER[unit]),
  ];
  const z = (deep: number): string => dimension('Z', levels.lift - deep, unit);
  const full = feedWord(c.feed ?? 0, unit, false);
  // Straight down an end mill cuts with its weakest part.
  const down = feedWord((c.feed ?? 0) / 2, unit, false);
  const steps = edgesOf(path);
  const [first] = steps;
  if (first === undefined) return;
  const along = headingAt(first, path.start);
  const lead = c.cutter / 2;
  const centre = add(path.start, scale(c.off, lead));
  const beside = (s: 1 | -1, off: number): Point => add(add(path.start, scale(c.off, off)), scale(along, s * lead));
  const far = Math.max(c.far, lead);
  const arc = (ccw: boolean, to: Point, about: Point, from: Point): void =>
    out.block(
      ccw ? 'G03' : 'G02',
      ...xy(to),
      dimension('I', about.x - from.x, unit, FINER[unit]),
      dimension('J', about.y - from.y, unit, FINER[unit]),
    );
  const tabs =
    depth <= c.tabTop + 1e-9 ? [] : c.tabs.map((t) => ({ at: nearestAlong(path, t.at).along, half: t.long / 2 }));
  const over = (s: number): boolean => tabs.some((t) => Math.abs(s - t.at) < t.half - 1e-6);
  out.block('G01', ...xy(beside(-1, far)), full);
  out.block('G01', z(depth));
  out.block('G01', ...xy(beside(-1, lead)));
  arc(true, path.start, centre, beside(-1, lead));
  let done = 0;
  let raised = false;
  for (const [from, edge] of cutAt(
    steps,
    tabs.flatMap((t) => [t.at - t.half, t.at + t.half]),
  )) {
    const long = stepLength([from, edge]);
    const up = over(done + long / 2);
    if (up && !raised) out.block('G01', z(c.tabTop));
    if (!up && raised) {
      out.block('G01', z(depth), down);
      out.block(full);
    }
    raised = up;
    if (edge.kind === 'line') out.block('G01', ...xy(edge.to));
    else arc(edge.ccw, edge.to, edge.centre, from);
    done += long;
  }
  arc(true, beside(1, lead), centre, path.start);
  out.block('G01', ...xy(beside(1, far)));
};

/**
 * The outline, pass by pass: roughing a half of the cutter's diameter deeper each time, then to size. Between the
 * passes the cutter stays off the metal; over a tab it is raised. No cycle runs at the end.
 */
export const contourMoves = (out: Tape, c: Contour, hold: ContourHold): void => {
  const { unit } = hold;
  const along = ([first]: ReturnType<typeof edgesOf>, at: Point): Point =>
    first === undefined ? at : headingAt(first, at);
  const begin = (path: Path): Point =>
    add(
      add(path.start, scale(c.off, Math.max(c.far, c.cutter / 2))),
      scale(along(edgesOf(path), path.start), -c.cutter / 2),
    );
  const from = begin(c.rough ?? c.last);
  out.block('G00', dimension('X', from.x, unit, FINER[unit]), dimension('Y', from.y, unit, FINER[unit]));
  out.block('G01', dimension('Z', hold.levels.feed, unit), feedWord(c.feed ?? 0, unit, false));
  for (const path of [c.rough, c.last]) {
    if (path === null) continue;
    out.say(comment(path === c.last ? 'LAST PASS' : 'ROUGHING', ''));
    for (const depth of path === c.last ? c.passes.last : c.passes.rough) round(out, path, depth, c, hold);
  }
};
