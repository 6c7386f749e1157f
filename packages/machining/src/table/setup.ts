import {
  type LengthUnit,
  type Point,
  type Speech,
  apply,
  distance,
  flatten,
  invert,
  minusSign,
  pathBox,
  perUnit,
  say,
  sayAtLeast,
  sayNumber,
} from '@fayplate/core';
import type { MachineSpec } from '@fayplate/job';
import { type Plate, type PlateHole, type Side, withinBore } from '@fayplate/plate';
import type { TableAxes } from '../frame/axes.js';
import { cornerOf } from '../frame/blank.js';
import { chamferWidth } from '../operations/mouth.js';
import type { Setup, TableRow } from '../types.js';

/** Whether the vice of the job holds the blank: across which of its sides, or why not. */
export const viceWords = (
  vice: MachineSpec['vice'] | null,
  { blank }: TableAxes,
  speech: Speech,
): readonly string[] => {
  if (vice == null) return [];
  const l = (mm: number): string => say(mm, speech, speech.unit === 'in' ? 2 : 0);
  const [less, more] = [Math.min(blank.width, blank.height), Math.max(blank.width, blank.height)];
  if (less > vice.opens)
    return [`The vice opens ${l(vice.opens)} and the blank is ${l(less)} across: clamp it to the table.`];
  const way = blank.height <= blank.width ? 'from front to back' : 'from left to right';
  const past = vice.jaws === null ? 0 : (more - vice.jaws) / 2;
  return [
    `The vice, which opens ${l(vice.opens)}, holds the blank ${way}, ` +
      l(less) +
      (past > less / 2 ? `; it stands ${l(past)} out past the jaws at either end: put a jack under each` : '') +
      '. ' +
      'Parallels under it keep clear of every through hole.',
  ];
};

/** Least clear metal about the middle of a clamp's toe, mm (common practice: a strap is 20 to 25 wide). */
const TOE = 12;
/** Steps of the search, mm, and how many places are weighed against each other. */
const STEP = 4;
const MOST = 300;
/** More clear metal than this is no better, mm. */
const AMPLE = 40;

const isInside = (p: Point, rim: readonly Point[]): boolean =>
  rim.reduce((inside, a, i) => {
    const b = rim[(i + 1) % rim.length] ?? a;
    const crosses = a.y > p.y !== b.y > p.y && p.x < a.x + ((p.y - a.y) / (b.y - a.y)) * (b.x - a.x);
    return crosses ? !inside : inside;
  }, false);

/** Metal from a point to the nearest cut, mm: what is sunk or chamfered counts at its full width. */
const clearAt = (p: Point, plate: Plate): number =>
  Math.min(
    ...plate.bores.map((b) => -withinBore(p, b)),
    ...plate.holes.map((h) => distance(p, h) - widestOf(h) / 2 - (h.slot?.length ?? 0) / 2),
  );

const widestOf = (h: PlateHole): number => Math.max(chamferWidth(h), h.sink?.diameter ?? 0);

/**
 * Where two clamps may stand for the whole of the drilling: the two widest stretches of whole metal, far apart.
 * `milled`: the face is first milled all over, where no clamp may stand on it.
 */
export const clampingWords = (
  plate: Plate,
  axes: TableAxes,
  speech: Speech,
  milled: boolean,
  machine: MachineSpec | null = null,
): string => {
  const toe = machine?.clampWidth === undefined ? TOE : machine.clampWidth / 2;
  const rim = flatten(plate.outline.path, 0.2);
  const box = pathBox(plate.outline.path);
  const spots: { readonly at: Point; readonly clear: number }[] = [];
  for (let x = box.left + STEP; x < box.right; x += STEP)
    for (let y = box.bottom + STEP; y < box.top; y += STEP) {
      const at = { x, y };
      if (!isInside(at, rim)) continue;
      const clear = clearAt(at, plate);
      if (clear >= toe) spots.push({ at, clear });
    }
  const roomy = Math.max(0, ...spots.map((s) => Math.min(s.clear, AMPLE)));
  const good = spots.filter((s) => s.clear >= 0.6 * roomy);
  const few = good.filter((_, i) => i % Math.ceil(good.length / MOST) === 0);
  const pairs = few.flatMap((p, i) => few.slice(i + 1).map((q) => [p, q, distance(p.at, q.at)] as const));
  const far = 0.5 * Math.max(box.right - box.left, box.top - box.bottom);
  const [one, two] = pairs.reduce<(typeof pairs)[number] | readonly [null, null, number]>(
    (best, pair) => (pair[2] > best[2] + 1e-9 ? pair : best),
    [null, null, far],
  );
  if (one === null || two === null)
    return (
      'Clamp it by the edges of the blank, or hold it in the vice: no ' +
      'metal within the outline is wide enough for two clamps.'
    );
  const places = speech.unit === 'in' ? 1 : 0;
  const said = [one, two].map(({ at }) => asSaid(apply(axes.motion, at), speech, places));
  // What is promised holds at the places as they are printed.
  const clear = Math.min(...said.map((p) => clearAt(apply(invert(axes.motion), p), plate)));
  const [first, second] = said.map(
    (p) => `X ${minusSign(sayNumber(p.x, speech, places))}, Y ${minusSign(sayNumber(p.y, speech, places))}`,
  );
  return (
    `${milled ? 'Hold the blank by its edges while its face is milled. Then clamps' : 'Clamps'} may stand at ` +
    `${first} and at ${second} as seen from side B: no cut comes within ` +
    `${sayAtLeast(clear, speech, places + (speech.unit === 'in' ? 1 : 0))} of them.`
  );
};

const asSaid = (p: Point, { unit }: Speech, places: number): Point => {
  const step = perUnit(unit) / 10 ** places;
  return { x: Math.round(p.x / step) * step, y: Math.round(p.y / step) * step };
};

interface Lying {
  readonly side: Side;
  /** The plate has been cut from its other side. */
  readonly second: boolean;
  readonly rows: readonly TableRow[];
  readonly axes: TableAxes;
  readonly unit: LengthUnit;
  /** Diameter of the edge finder, mm. */
  readonly tip: number | null;
}

/** How the plate lies with one side uppermost, and how its zero is found there. */
export const setup = (lying: Lying): Setup => {
  const { side, second, rows, unit } = lying;
  const again = second ? trueTo(rows, side, unit) : null;
  const turned =
    side === 'B'
      ? `X to the right, Y up.${second ? ' Turn the plate over about its Y axis.' : ''}`
      : 'The plate is turned over about its Y axis, so the X ' +
        'settings below are those of the drawing with the sign changed.';
  return { side, says: [turned, ...(again === null ? [zeroWords(lying)] : [again])].join(' ') };
};

/**
 * A bore that the other side left open, to indicate when the plate has been turned over: nearer than edges that are
 * found again.
 */
const trueTo = (rows: readonly TableRow[], side: Side, unit: LengthUnit): string | null => {
  const bore = rows.find(
    (r) => r.op === 'bore' && r.side !== side && rows.some((d) => d.hole === r.hole && d.op === 'drill'),
  );
  if (bore === undefined) return null;
  const at = (mm: number): string => minusSign(sayNumber(mm, { unit, fraction: null }));
  return `Bring the spindle true to ${bore.hole} with an indicator: it is at X ${at(-bore.set.x)}, Y ${at(bore.set.y)}.`;
};

/**
 * Nothing of the plate is on a bare blank yet, so zero is found from two of its edges: how far it lies from them, and
 * what to set when a finder touches them. With side A uppermost the left edge of the drawing lies on the right.
 */
const zeroWords = ({ side, axes, unit, tip }: Lying): string => {
  const { left, bottom, width, height } = axes.blank;
  const corner = cornerOf(axes.origin);
  const own = { unit, fraction: null };
  const number = (mm: number): string => minusSign(sayNumber(mm, own));
  const half = tip === null ? 0 : tip / 2;
  // The edge to find, seen with this side uppermost: the one that bounds the corner asked for, else left and lower.
  const fromRight = corner !== null && corner.endsWith('right') === (side === 'B');
  const fromTop = corner?.startsWith('upper') === true;
  const [seenLeft, seenRight] = side === 'B' ? [left, left + width] : [-left - width, -left];
  const xEdge = fromRight ? seenRight : seenLeft;
  const yEdge = fromTop ? bottom + height : bottom;
  const [xName, yName] = [fromRight ? 'right' : 'left', fromTop ? 'upper' : 'lower'];
  const where =
    corner === null
      ? `Zero is ${axes.origin}: ${say(Math.abs(xEdge), own)} from the ${xName} edge of the blank and ` +
        `${say(Math.abs(yEdge), own)} from its ${yName} edge, both milled true first.`
      : `Zero is the ${yName} ${xName} corner of the blank as it lies.`;
  const out = (fromHigh: boolean): 1 | -1 => (fromHigh ? 1 : -1);
  const set = (edge: number, fromHigh: boolean): string => number(edge + out(fromHigh) * half);
  const halfTip = (edge: number, fromHigh: boolean): string =>
    Math.abs(edge) < 1e-9
      ? `${fromHigh ? '' : 'minus '}half its tip`
      : `${number(edge)} ${fromHigh ? 'plus' : 'less'} half its tip`;
  const settings =
    tip === null ? [halfTip(xEdge, fromRight), halfTip(yEdge, fromTop)] : [set(xEdge, fromRight), set(yEdge, fromTop)];
  const finder =
    `Edge finder${tip === null ? '' : ` with a tip of ${say(tip, own)}`}: when it touches the ${xName} edge set X to ` +
    `${settings[0] ?? ''}, at the ${yName} edge Y to ${settings[1] ?? ''}.`;
  return `${where} ${finder}`;
};
