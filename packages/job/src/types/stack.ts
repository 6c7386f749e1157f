/** A length with its ±, mm. */
export interface Length {
  readonly value: number;
  readonly plusMinus: number;
}

/** The plate that worked before, and how far the old and the new shaft stand out, measured the same way; mm. */
export interface OldPlate {
  readonly thickness: Length;
  readonly shims: Length | null;
  readonly reach: {
    readonly old: number;
    readonly new: number;
    /** ± of one of the two readings. */
    readonly each: number;
    /** ± of the error that both share, which cancels; null where none is stated. */
    readonly zero: number | null;
    readonly instrument: string | null;
  } | null;
}

/** The chain of lengths along the shaft, mm, and the one that is looked for. */
export interface StackSpec {
  readonly links: readonly StackLink[];
  readonly unknown: { readonly name: string; readonly from: number; readonly to: number; readonly made: number | null };
  readonly shims: { readonly from: readonly number[]; readonly atMost: number } | null;
  /** Thicknesses of plate on hand, mm; null: any, to 0.1 mm. */
  readonly onHand: readonly number[] | null;
  /**
   * Thicknesses that are bought in the job's system, mm: one that fits is taken before any other where nothing is said
   * to be on hand.
   */
  readonly stock?: readonly number[];
  readonly limits: readonly StackLimit[];
}

/** A length of the chain with its ±, mm. */
export interface StackLink {
  readonly name: string;
  readonly value: number;
  readonly plusMinus: number;
}

/** What a sum of links must keep to, mm; null: no bound on that side. */
export interface StackLimit {
  readonly name: string;
  /** Each link's name with its whole-number factor, usually ±1. */
  readonly sum: ReadonlyMap<string, number>;
  readonly least: number | null;
  readonly most: number | null;
}
