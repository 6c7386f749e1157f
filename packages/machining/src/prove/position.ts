import { distance } from '@fayplate/core';
import type { Job } from '@fayplate/job';
import { type Plate, type PlateHole, isTapped } from '@fayplate/plate';
import type { Pattern } from '@fayplate/survey';
import type { ProvedHole } from '../types.js';
import { radius95 } from './lay.js';

/** Every measured hole against the design that it is laid on; bores have no position of their own. */
export const provedHoles = (laid: Pattern, plate: Plate, job: Job): readonly ProvedHole[] =>
  laid.ids.flatMap((id, i): readonly ProvedHole[] => {
    const hole = plate.holes.find((h) => h.id === id);
    const at = laid.points[i];
    if (hole === undefined || at === undefined) return [];
    const position = 2 * distance(at, hole);
    const allowed = allowedFor(hole, job);
    return [
      {
        id,
        dx: at.x - hole.x,
        dy: at.y - hole.y,
        position,
        within: radius95(laid, i),
        allowed,
        ok: allowed === null || position <= allowed,
      },
    ];
  });

/**
 * ASME Y14.5, nonmandatory appendix B: floating T = H − F; fixed, shared evenly with the tapped mate, T = (H − F) / 2.
 * H at its least, F at its largest.
 */
export const allowedFor = (hole: PlateHole, job: Job): number | null => {
  if (hole.fastener === null || hole.as !== 'clearance') return null;
  const { part } = hole;
  const feature = job.faces.find((f) => f.name === part?.face)?.features.find((f) => f.id === part?.feature);
  const play = (hole.limits?.[0] ?? hole.diameter) - hole.fastener;
  return feature !== undefined && isTapped({ feature, diameter: feature.diameter?.value ?? null }) ? play / 2 : play;
};
