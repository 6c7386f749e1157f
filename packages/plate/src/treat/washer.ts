import { type Thread, hardware } from '@fayplate/handbook';
import type { FastenSpec } from '@fayplate/job';
import type { FastenerHead } from '../types.js';

/** Whether a washer lies under a nut or head: as the job says; where it says nothing, under a nut and under no head. Source: common practice. */
export const hasWasher = (spec: Pick<FastenSpec, 'washer'>, under: FastenerHead['kind'] | 'bolt'): boolean =>
  spec.washer ?? under === 'nut';

/** How thick that washer is, mm; 0 where there is none, or none of its size in the tables. */
export const washerUnder = (
  spec: Pick<FastenSpec, 'washer'>,
  under: FastenerHead['kind'] | 'bolt',
  thread: Thread,
): number => (hasWasher(spec, under) ? (hardware(thread).washer?.thickness ?? 0) : 0);
