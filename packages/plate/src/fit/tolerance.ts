import type { Job } from '@fayplate/job';
import { matedFaces } from '../mate/mate.js';
import { BY_INDICATOR, usualDrilling } from '../limits.js';
import type { MatedFace, Plate } from '../types.js';
import { meetingsOf } from './meetings.js';

/** Zones are given in whole hundredths of a millimetre, rounded down. */
const STEP = 0.01;

const down = (mm: number): number => Math.max(0, Math.floor(mm / STEP + 1e-9) * STEP);

/** The least of each pattern: one zone for all holes that one part's fasteners of one kind enter. */
const leastOfPattern = (
  zones: readonly { readonly id: string; readonly pattern: string; readonly zone: number }[],
): ReadonlyMap<string, number> => {
  const least = new Map<string, number>();
  for (const { pattern, zone } of zones) least.set(pattern, Math.min(least.get(pattern) ?? Infinity, zone));
  return new Map(zones.map(({ id, pattern }) => [id, least.get(pattern) ?? 0]));
};

/**
 * Hole → diameter of the zone in which its axis must lie so that its fastener still enters, mm: what the least hole
 * leaves the largest fastener (H − F of ASME Y14.5, floating or fixed, the part's own hole as it was measured), less
 * the ± of the part's own feature on either side; one zone for a pattern, its least. A dowel's hole has the job's own ±
 * of a hole's place. The second part's register has twice the ± by which its axis is picked up again. 0: nothing is
 * left. Holes that take nothing of a part are not in it.
 */
export const positionTolerances = (
  plate: Plate,
  job: Job,
  mated: readonly [MatedFace, MatedFace],
): ReadonlyMap<string, number> => {
  const made = job.plate?.drilling ?? usualDrilling;
  const holes = matedFaces(job).flatMap((face, i) =>
    meetingsOf(face, mated[i === 0 ? 0 : 1], plate, made).meetings.flatMap(({ joint, cut, placed }) =>
      'as' in cut
        ? [
            {
              id: cut.id,
              pattern: `${face.name} ${cut.as}`,
              zone: joint.role === 'locator' ? down(2 * made) : down(2 * (joint.clearance[0] - 2 * placed.sigma)),
            },
          ]
        : [],
    ),
  );
  const registers = plate.faces.map((f) =>
    plate.bores.find((b) => (b.kind === 'recess' || b.kind === 'spigot') && b.part?.face === f),
  );
  const [first, second] = registers;
  const again =
    first === undefined || second === undefined
      ? []
      : [[second.id, down(2 * (job.plate?.secondSetting ?? BY_INDICATOR))] as const];
  return new Map([...leastOfPattern(holes), ...again]);
};
