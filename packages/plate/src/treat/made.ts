import type { Requirement } from '@fayplate/core';
import type { PlateHole } from '../types.js';

/** A treatment before it has its number and its place. */
export type Made = Omit<PlateHole, 'id' | 'feature' | 'part' | 'x' | 'y' | 'land'>;

export type Treated =
  | {
      readonly ok: true;
      readonly made: Made;
      /** What is not known, for the plate's list. */
      readonly remarks: readonly Requirement[];
      /** Where the sizes of nut, head and socket come from; null where there is none. */
      readonly seatSource: string | null;
      /** The part's own hole carries a thread. */
      readonly tappedPart: boolean;
    }
  | { readonly ok: false; readonly fault: string };
