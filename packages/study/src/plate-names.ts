import { type Job, nearestName } from '@fayplate/job';
import type { Plate } from '@fayplate/plate';
import { Refusal } from './refusal.js';

/** The file alone cannot tell which holes the plate has: a slip in a name would pass for a hole that is measured and missed. */
export const refuseUnknownHoles = ({ drilled }: Job, plate: Plate): void => {
  const names = [...plate.holes, ...plate.bores].map((h) => h.id);
  for (const { id } of drilled?.features ?? []) {
    if (names.includes(id)) continue;
    const near = nearestName(id, names);
    const where = drilled?.readings.find((r) => r.features.includes(id));
    throw new Refusal(
      `${where === undefined ? 'drilled' : `drilled reading ${where.id}, \`${where.text}\``}: the plate has no ${id}${near === null ? '' : `; did you mean ${near}`}. Its holes and bores are ${names.join(', ')}`,
    );
  }
};
