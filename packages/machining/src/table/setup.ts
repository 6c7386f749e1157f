import { type LengthUnit, minusSign, say, sayNumber } from '@fayplate/core';
import type { Side } from '@fayplate/plate';
import type { TableAxes } from '../frame/axes.js';
import { cornerOf } from '../frame/blank.js';
import type { Setup, TableRow } from '../types.js';

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
      : 'The plate is turned over about its Y axis, so the X settings below are those of the drawing with the sign changed.';
  return { side, says: [turned, ...(again === null ? [zeroWords(lying)] : [again])].join(' ') };
};

/** A bore that the other side left open, to indicate when the plate has been turned over: nearer than edges that are found anew. */
const trueTo = (rows: readonly TableRow[], side: Side, unit: LengthUnit): string | null => {
  const bore = rows.find(
    (r) => r.op === 'bore' && r.side !== side && rows.some((d) => d.hole === r.hole && d.op === 'drill'),
  );
  if (bore === undefined) return null;
  const at = (mm: number): string => minusSign(sayNumber(mm, { unit, fraction: null }));
  return `Bring the spindle true to ${bore.hole} with an indicator: it is at X ${at(-bore.set.x)}, Y ${at(bore.set.y)}.`;
};

/**
 * Nothing of the plate is on a bare blank yet, so zero is told by two of its edges: how far it lies from them, and what to set when a finder
 * touches them. With side A uppermost the left edge of the drawing lies on the right.
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
      ? `Zero is ${axes.origin}: ${say(Math.abs(xEdge), own)} from the ${xName} edge of the blank and ${say(Math.abs(yEdge), own)} from its ${yName} edge, both milled true first.`
      : `Zero is the ${yName} ${xName} corner of the blank as it lies.`;
  const out = (fromHigh: boolean): 1 | -1 => (fromHigh ? 1 : -1);
  const set = (edge: number, fromHigh: boolean): string => number(edge + out(fromHigh) * half);
  const halfTip = (edge: number, fromHigh: boolean): string =>
    Math.abs(edge) < 1e-9
      ? `${fromHigh ? '' : 'minus '}half its tip`
      : `${number(edge)} ${fromHigh ? 'plus' : 'less'} half its tip`;
  const settings =
    tip === null ? [halfTip(xEdge, fromRight), halfTip(yEdge, fromTop)] : [set(xEdge, fromRight), set(yEdge, fromTop)];
  const finder = `Edge finder${tip === null ? '' : ` with a tip of ${say(tip, own)}`}: when it touches the ${xName} edge set X to ${settings[0] ?? ''}, at the ${yName} edge Y to ${settings[1] ?? ''}.`;
  return `${where} ${finder}`;
};
