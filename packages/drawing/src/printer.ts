/** A printer's measured scale, as it is kept between jobs; the ± hold 95 times in 100. */
export interface PrinterScale {
  readonly name: string;
  /** Printed over nominal, across the sheet and up it. */
  readonly wide: number;
  readonly high: number;
  /** Radians, positive where the upright leans to the right. */
  readonly skew: number;
  /** ± of `wide`, `high` and `skew` (null: not measured, taken as square). */
  readonly plusMinus: { readonly wide: number; readonly high: number; readonly skew: number | null };
  /** ISO 8601, and the paper that was measured. */
  readonly date: string;
  readonly paper: string;
}
