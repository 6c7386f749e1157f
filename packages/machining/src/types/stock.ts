import type { Side } from '@fayplate/plate';
import type { Limits, Operation } from './operation.js';

/**
 * The blank that the plate is cut from, sides along the table's axes as seen from side B, its lower left corner in
 * those axes, mm: zero lies
 * `-left` from its left edge and `-bottom` from its lower edge.
 */
export interface Blank {
  readonly left: number;
  readonly bottom: number;
  readonly width: number;
  readonly height: number;
  readonly from: 'job' | 'outline';
  /** Least metal between the outline and an edge of the blank, mm. */
  readonly allowance: number;
  /** The finished outline's own extent, mm. */
  readonly finished: { readonly width: number; readonly height: number };
}

/** Metal as it is bought, and how it comes to the plate's thickness. */
export interface Stock {
  /** `3/4 in`, `20 mm`; null where none that is sold is thick enough. */
  readonly name: string | null;
  /** It is the blank of the job; left out: it is to be bought. */
  readonly own?: true;
  readonly thickness: number;
  /**
   * What is faced off, mm, from the side that is cut first, down to the top of what is raised; 0 where it serves as
   * bought.
   */
  readonly faced: number;
  readonly side: Side;
  /** Finished thickness, mm. */
  readonly finished: number;
  /** Least and greatest thickness that the stack bears, mm; null where the thickness does not come from it. */
  readonly window: Limits | null;
}

/** How far the nearest cut stays from a clamp or jaw, mm; below zero it is cut. */
export interface ClampGap {
  readonly clamp: number;
  readonly hole: string;
  readonly op: Operation;
  readonly gap: number;
  readonly ok: boolean;
}
