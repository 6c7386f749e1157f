import type { Job } from '@fayplate/job';
import type { Plate } from '@fayplate/plate';
import type { ToolGroup } from '../operations/plan.js';

/** What the rows do not say: room under the plate, the edge finder's allowance, drills that the shop lacks. */
export const tableNotes = (plate: Plate, job: Job, groups: readonly ToolGroup[]): readonly string[] => {
  const cuts = groups.flatMap((g) => g.cuts);
  const below = Math.max(0, ...cuts.map((c) => c.depth - plate.thickness));
  const notes: string[] = [];
  if (below > 0) notes.push(`Drills come ${below.toFixed(1)} mm through: leave more than that under every through hole, on parallels or packing that no hole stands over.`);
  if (job.machine !== null && job.machine.drills !== null) notes.push(...lacking(groups, job.machine.drills));
  return notes;
};

const lacking = (groups: readonly ToolGroup[], onHand: readonly { readonly name: string; readonly diameter: number }[]): readonly string[] =>
  groups.flatMap((g) => {
    const cut = g.cuts.find((c) => c.op === 'drill');
    if (cut === undefined || onHand.length === 0 || onHand.some((d) => Math.abs(d.diameter - cut.toolDiameter) < 0.005)) return [];
    const nearest = onHand.reduce((a, b) => (Math.abs(b.diameter - cut.toolDiameter) < Math.abs(a.diameter - cut.toolDiameter) ? b : a));
    const off = nearest.diameter - cut.toolDiameter;
    return [`${cut.tool} is not among the drills on hand; the nearest, ${nearest.name}, is ${Math.abs(off).toFixed(2)} mm ${off > 0 ? 'over' : 'under'}.`];
  });
