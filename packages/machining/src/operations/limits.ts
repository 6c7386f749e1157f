import type { PlateHole } from '@fayplate/plate';
import type { Limits } from './operation.js';

/** Limits of a reamed hole or a slot's width, mm; null for a drilled hole. */
export const holeLimits = (hole: PlateHole): Limits | null =>
  hole.as === 'dowel' || hole.as === 'slot' ? hole.limits : null;
