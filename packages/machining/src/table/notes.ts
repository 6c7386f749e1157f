import { type LengthUnit, type Speech, say } from '@fayplate/core';
import type { Job } from '@fayplate/job';
import type { Plate } from '@fayplate/plate';
import type { TableAxes } from '../frame/axes.js';
import { type Corner, cornerOf } from '../frame/blank.js';
import type { ToolGroup } from '../operations/plan.js';

/** What the rows do not say: room under the plate, the edge finder's allowance, drills that the shop lacks. */
export const tableNotes = (plate: Plate, job: Job, groups: readonly ToolGroup[], axes: TableAxes, unit: LengthUnit): readonly string[] => {
  const below = Math.max(0, ...groups.flatMap((g) => g.cuts).filter((c) => c.op === 'pilot' || c.op === 'drill').map((c) => c.depth - plate.thickness));
  const notes: string[] = [];
  const corner = cornerOf(axes.origin);
  if (corner !== null) notes.push(edgeFinder(corner, job.machine?.tip ?? null, { unit, fraction: null }));
  const proud = Math.max(0, ...plate.bores.filter((b) => b.kind === 'spigot').map((b) => b.depth ?? 0));
  if (proud > 0) notes.push(`Start from stock at least ${say(plate.thickness + proud, { unit, fraction: null }, unit === 'in' ? 3 : 1)} thick: the raised spigot is cut from it first, and depths are below the flat that this leaves.`);
  if (below > 0) notes.push(`Drills come ${say(below, { unit, fraction: null }, unit === 'in' ? 2 : 1)} through: leave more than that under every through hole, on parallels or packing that no hole stands over.`);
  notes.push('Break the edges of every hole on the far side as well.');
  if (job.machine !== null && job.machine.drills !== null) notes.push(...lacking(groups, job.machine.drills));
  return notes;
};

/** Half the tip lies between the edge and the spindle's centre when the finder touches; the table has none of it in its figures. */
const edgeFinder = (corner: Corner, tip: number | null, speech: Speech): string => {
  const [x, y] = [corner.endsWith('right') ? 1 : -1, corner.startsWith('upper') ? 1 : -1];
  const sign = (s: number): string => (s < 0 ? '−' : '+');
  const side = `the ${x < 0 ? 'left' : 'right'} edge set X`;
  const other = `the ${y < 0 ? 'lower' : 'upper'} edge set Y`;
  if (tip === null) return `Edge finder: the figures here have no tip allowance in them. When it touches ${side} to ${sign(x)} half the tip’s diameter, and at ${other} to ${sign(y)} half of it.`;
  const half = say(tip / 2, speech);
  return `Edge finder with a tip of ${say(tip, speech)}: the figures here have no tip allowance in them. When it touches ${side} to ${sign(x)}${half}, and at ${other} to ${sign(y)}${half}.`;
};

const lacking = (groups: readonly ToolGroup[], onHand: readonly { readonly name: string; readonly diameter: number }[]): readonly string[] =>
  groups.flatMap((g) => {
    const cut = g.cuts.find((c) => c.op === 'drill');
    if (cut === undefined || onHand.length === 0 || onHand.some((d) => Math.abs(d.diameter - cut.toolDiameter) < 0.005)) return [];
    const nearest = onHand.reduce((a, b) => (Math.abs(b.diameter - cut.toolDiameter) < Math.abs(a.diameter - cut.toolDiameter) ? b : a));
    const off = nearest.diameter - cut.toolDiameter;
    return [`${cut.tool} is not among the drills on hand; the nearest, ${nearest.name}, is ${Math.abs(off).toFixed(2)} mm ${off > 0 ? 'over' : 'under'}.`];
  });
