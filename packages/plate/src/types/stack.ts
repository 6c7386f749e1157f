/** The solved chain; mm. */
export interface StackResult {
  readonly unknown: string;
  /** Window for the unknown and its shims together, mm; null where the limits cannot all be met. */
  readonly worst: { readonly from: number; readonly to: number } | null;
  readonly statistical: { readonly from: number; readonly to: number; readonly coverage: number } | null;
  /** The unknown alone, without shims. */
  readonly chosen: number | null;
  readonly shims: readonly number[];
  /** A second thickness on hand that lies with the plate, mm; null: none. */
  readonly spacer: number | null;
  /** chosen + spacer + shims. */
  readonly total: number | null;
  /**
   * The length at which `limits` are judged: `total`; where nothing could be chosen, the value that misses them least,
   * mm.
   */
  readonly at: number;
  readonly limits: readonly StackCheck[];
  /** Which link's ± costs most: by how much each window would widen were that link exact, mm; dearest first. */
  readonly costs: readonly {
    readonly link: string;
    readonly plusMinus: number;
    readonly worst: number;
    readonly statistical: number;
  }[];
  /** Null where the worst-case window is open. */
  readonly conflict: StackConflict | null;
  readonly ok: boolean;
}

/** The two limits that leave no room between them; one limit twice where its own two ends do. */
export interface StackConflict {
  readonly between: readonly [StackBound, StackBound];
  /** How far apart they are, mm. */
  readonly by: number;
  /** Whether they would still conflict with every link at its nominal. */
  readonly evenWhenExact: boolean;
}

/** One end of what the limits leave the unknown link; mm. */
export interface StackBound {
  /** A limit's name; null: the range that the unknown was looked for in. */
  readonly limit: string | null;
  readonly end: 'least' | 'most';
  /**
   * What the unknown must not fall below (`from`) or go over (`to`), mm; null where the unknown has no say in the
   * limit.
   */
  readonly asks: 'from' | 'to' | null;
  readonly at: number | null;
}

/** One limit of the chain with the unknown as chosen; mm. */
export interface StackCheck {
  readonly name: string;
  readonly nominal: number;
  readonly worst: readonly [number, number];
  readonly statistical: readonly [number, number];
  readonly least: number | null;
  readonly most: number | null;
  /** At the worst. */
  readonly ok: boolean;
}
