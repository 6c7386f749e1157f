import { type LengthUnit, type Speech, say } from '@fayplate/core';
import type { Job } from '@fayplate/job';
import type { Plate, Side } from '@fayplate/plate';
import type { TableAxes } from '../frame/axes.js';
import { type Corner, cornerOf } from '../frame/blank.js';
import type { Operation } from '../types.js';
import type { Cut } from '../operations/operation.js';
import type { ToolGroup } from '../operations/plan.js';

/** What may run out of the far face; the cone of a chamfer stops well short of where its point would be. */
const comesThrough: ReadonlySet<Operation> = new Set(['spot', 'pilot', 'drill', 'ream', 'tap', 'mill', 'bore']);

/** What the rows do not say: room under the plate, the edge finder's allowance, drills that the shop lacks. */
export const tableNotes = (
  plate: Plate,
  job: Job,
  groups: readonly ToolGroup[],
  axes: TableAxes,
  unit: LengthUnit,
): readonly string[] => {
  const below = Math.max(
    0,
    ...groups
      .flatMap((g) => g.cuts)
      .filter((c) => comesThrough.has(c.op))
      .map((c) => c.depth - plate.thickness),
  );
  const notes: string[] = [];
  const corner = cornerOf(axes.origin);
  if (corner !== null)
    notes.push(
      edgeFinder(corner, [...new Set(groups.map((g) => g.side))], job.machine?.tip ?? null, { unit, fraction: null }),
    );
  const stock = plate.outline.blank.thickness;
  if (stock > plate.thickness)
    notes.push(
      `Start from stock at least ${say(stock, { unit, fraction: null }, unit === 'in' ? 3 : 1)} thick: what stands proud is cut from it first on its side, and depths are below the flat that this leaves.`,
    );
  if (below > 0)
    notes.push(
      `Tools come ${say(below, { unit, fraction: null }, unit === 'in' ? 2 : 1)} through: leave more than that under every through hole, on parallels or packing that no hole stands over.`,
    );
  notes.push(...tooDeep(groups, { unit, fraction: null }), 'Break the edges of every hole on the far side as well.');
  if (job.machine !== null && job.machine.drills !== null) notes.push(...lacking(groups, job.machine.drills));
  return notes;
};

/** How deep the tools that are usually sold go, in diameters (common practice: jobber drills 7 to 10, hand taps about 4). */
const DRILL_REACHES = 8;
const TAP_REACHES = 4;

/** Drills and taps that would bottom on their own shanks. */
const tooDeep = (groups: readonly ToolGroup[], speech: Speech): readonly string[] =>
  groups.flatMap(({ tool, cuts }) => {
    const far = (of: (op: Operation) => boolean, reach: number): readonly Cut[] =>
      cuts.filter((c) => of(c.op) && c.depth > reach * c.toolDiameter);
    const said = (deep: readonly Cut[]): string =>
      `${tool.charAt(0).toUpperCase()}${tool.slice(1)} goes ${say(Math.max(...deep.map((c) => c.depth)), speech, speech.unit === 'in' ? 2 : 0)} deep in ${[...new Set(deep.map((c) => c.hole))].join(', ')}`;
    const drilled = far((op) => op === 'pilot' || op === 'drill', DRILL_REACHES);
    const tapped = far((op) => op === 'tap', TAP_REACHES);
    return [
      ...(drilled.length === 0
        ? []
        : [
            `${said(drilled)}, beyond ${DRILL_REACHES} diameters: take a long-series drill, and clear the chips often.`,
          ]),
      ...(tapped.length === 0
        ? []
        : [
            `${said(tapped)}, farther than a usual tap reaches: leave thread for the bolt on the side that it enters by, and open the rest out to its clearance drill from the other.`,
          ]),
    ];
  });

/**
 * Half the tip lies between the edge and the spindle's centre when the finder touches; the table has none of it in its figures. With side A
 * uppermost the same corner lies on the other hand.
 */
const edgeFinder = (corner: Corner, sides: readonly Side[], tip: number | null, speech: Speech): string => {
  const y = corner.startsWith('upper') ? 1 : -1;
  const half = (s: number): string =>
    `${s < 0 ? '−' : '+'}${tip === null ? ' half the tip’s diameter' : say(tip / 2, speech)}`;
  const xOn = (side: Side): 1 | -1 => (corner.endsWith('right') === (side === 'B') ? 1 : -1);
  const xEdge = (side: Side): string => `the ${xOn(side) < 0 ? 'left' : 'right'} edge set X to ${half(xOn(side))}`;
  const [first = 'B', second] = sides;
  const finder = tip === null ? 'Edge finder' : `Edge finder with a tip of ${say(tip, speech)}`;
  const then =
    second === undefined
      ? ''
      : ` With side ${second} uppermost the same edge lies on the other hand: when it touches ${xEdge(second)}.`;
  return `${finder}: the figures here have no tip allowance in them. With side ${first} uppermost, when it touches ${xEdge(first)}, and at the ${y < 0 ? 'lower' : 'upper'} edge set Y to ${half(y)}.${then}`;
};

const lacking = (
  groups: readonly ToolGroup[],
  onHand: readonly { readonly name: string; readonly diameter: number }[],
): readonly string[] =>
  groups.flatMap((g) => {
    const cut = g.cuts.find((c) => c.op === 'drill');
    if (cut === undefined || onHand.length === 0 || onHand.some((d) => Math.abs(d.diameter - cut.toolDiameter) < 0.005))
      return [];
    const nearest = onHand.reduce((a, b) =>
      Math.abs(b.diameter - cut.toolDiameter) < Math.abs(a.diameter - cut.toolDiameter) ? b : a,
    );
    const off = nearest.diameter - cut.toolDiameter;
    return [
      `${cut.tool} is not among the drills on hand; the nearest, ${nearest.name}, is ${Math.abs(off).toFixed(2)} mm ${off > 0 ? 'over' : 'under'}.`,
    ];
  });
