import type { Motion, Point } from '@fayplate/core';
import type { Face, Instrument, ReadingKind } from '@fayplate/job';

/** What `locateFace` needs: one face and the instruments that its readings name. */
export interface Survey {
  readonly face: Face;
  readonly instruments: ReadonlyMap<string, Instrument>;
}

/**
 * The frame that centres are given in: where (0, 0) is, and what turns it. x is right and y up as the face is viewed.
 * `bench`: up is the y of the bench readings, so that the headings of all features keep their mean.
 */
export type Frame = (
  | { readonly origin: string; readonly up: string }
  | { readonly across: readonly [string, string]; readonly origin: string }
  | { readonly origin: string; readonly direction: 'clocks' | 'bench' }
  | { readonly origin: 'mean of centres'; readonly direction: 'clocks' | 'bench' | { readonly up: string } }
) & {
  /** Features on whose circle the origin is the centre; left out: it is no circle's. */
  readonly circled?: readonly string[];
};

/** A centre in its face's frame (as viewed, mm): origin and direction exact by choice. */
export interface LocatedFeature {
  readonly id: string;
  readonly x: number;
  readonly y: number;
  readonly radius: number | null;
  /** Standard uncertainty of the radius, mm; 0 where exact, null where there is no radius. */
  readonly radiusSigma: number | null;
  /** mm². */
  readonly covariance: Matrix2;
  readonly ellipse95: Ellipse;
}

/** A symmetric 2 × 2 matrix by rows: xx xy, xy yy; a covariance in mm². */
export type Matrix2 = readonly [readonly [number, number], readonly [number, number]];

/** Semi-axes mm, angle of the major axis in radians counter-clockwise from +x, in [0, π). */
export interface Ellipse {
  readonly major: number;
  readonly minor: number;
  readonly angle: number;
}

/** A reading, a stated diameter or a zero error after the adjustment; lengths in mm, angles in radians. */
export interface FittedReading {
  /**
   * Reading id; `7.x` and `7.y` for `at`; `diameter P1` for a stated diameter; `zero rule` for an instrument's shared
   * error.
   */
  readonly id: string;
  readonly text: string;
  readonly kind: ReadingKind | 'diameter' | 'zero';
  /** Whether `value`, `fitted`, `residual` and `sigma` are mm or radians. */
  readonly measures: 'length' | 'angle';
  readonly value: number;
  readonly fitted: number;
  /** value − fitted; mm or radians. */
  readonly residual: number;
  readonly sigma: number;
  /** Baarda's w; null where redundancy is 0. */
  readonly standardized: number | null;
  readonly redundancy: number;
  /**
   * Smallest error of this reading that would be found 80 times in 100 at α = 0.001, mm or radians; null where
   * redundancy is 0.
   */
  readonly detectable: number | null;
}

/** How all readings of a face agree together: χ² of their residuals against the ± given. */
export interface Fit {
  readonly dof: number;
  readonly chi2: number;
  /** Null where dof is 0. */
  readonly p: number | null;
  readonly sumRedundancy: number;
}

/** A reading that does not agree with the rest, as the likeliest explanation has it (data snooping: Baarda 1968). */
export interface Suspect {
  readonly reading: string;
  readonly measures: 'length' | 'angle';
  readonly standardized: number;
  /** Estimated gross error, mm or radians. */
  readonly error: number;
  /** Smallest error of this reading that would be found 80 times in 100 at α = 0.001, mm or radians. */
  readonly detectable: number;
  readonly guess: string | null;
  /** Feature → how far its centre moves if the reading is set aside, mm. */
  readonly moves: ReadonlyMap<string, number>;
  /** Other readings that no computation can tell from this one. */
  readonly tiedWith: readonly string[];
  /** Of these, the ones whose error would have the size of a common slip. */
  readonly slips: readonly TiedSlip[];
}

/** One way to explain a misfit: these readings are wrong, and all others sound. */
export interface Explanation {
  /** Ids as in `FittedReading`. */
  readonly readings: readonly string[];
  /** Chance that it is the right one, all that were weighed together being 1. */
  readonly odds: number;
  /**
   * Estimated error of each, mm or radians, in the order of `readings`, with what it is measured in and a guess at how
   * it came about.
   */
  readonly errors: readonly {
    readonly measures: 'length' | 'angle';
    readonly error: number;
    readonly guess: string | null;
  }[];
  /** How well the rest then agree; null where nothing is left to check them. */
  readonly p: number | null;
}

/** A reading to take, or to take again, that tells explanations apart. */
export interface TellingReading {
  /** In the reading language, without value; of one taken again its id stands in `again`. */
  readonly reading: string;
  readonly again: string | null;
  readonly instrument: string | null;
  readonly measures: 'length' | 'angle';
  /** What it would read under each explanation, mm or radians, in their order. */
  readonly foreseen: readonly number[];
  /** Its own ±: what it would read under two explanations nearer than this tells nothing between them. */
  readonly plusMinus: number;
}

/** A reading tied with a suspect, taken as the one that is wrong in its place. */
export interface TiedSlip {
  readonly reading: string;
  /** Its error if it is the one, mm or radians. */
  readonly error: number;
  readonly measures: 'length' | 'angle';
  readonly guess: string;
}

/** A reading worth taking next, and what it would improve. */
export interface NextReading {
  /** In the reading language, without value: `between P6 P9`. */
  readonly reading: string;
  readonly instrument: string | null;
  /** Feature → 95 % radius before and after, mm (null before: not fixed yet). */
  readonly reduces: ReadonlyMap<string, readonly [number | null, number]>;
}

/** Another arrangement of the same centres that the readings and clocks leave about as likely. */
export interface Rival {
  /** Chance that this is the one meant, all that were weighed together being 1. */
  readonly odds: number;
  readonly chi2: number;
  /** Every centre of it, in the face's own frame, mm. */
  readonly places: ReadonlyMap<string, Point>;
  /** Features whose centres lie elsewhere than in the arrangement shown, those that move farthest first. */
  readonly moved: readonly string[];
}

/** A reading that two arrangements foresee differently, in the reading language without its value. */
export interface SettlingReading {
  readonly reading: string;
  readonly instrument: string | null;
  /** What the arrangement shown foresees, mm. */
  readonly here: number;
  /** What each rival foresees, mm, in their order. */
  readonly there: readonly number[];
}

/** What else the readings may mean: empty where they leave one arrangement. */
export interface Arrangements {
  /** Chance that the arrangement shown is the one meant. */
  readonly odds: number;
  /** Likeliest first, until the odds of all listed and of the one shown reach 0.95. */
  readonly rivals: readonly Rival[];
  /** The reading that tells them apart best; null where there are no rivals, or no instrument reaches one. */
  readonly settle: SettlingReading | null;
  /** Pairs of features that would lie in each other's metal: the readings cannot be right. */
  readonly overlaps: readonly (readonly [string, string])[];
  /**
   * Whether the search for arrangements came to its end; false where it used up its steps, so that another may fit
   * better.
   */
  readonly searched: boolean;
}

/** A reading of which a misreading would hardly show in anything else. */
export interface UncheckedReading {
  /** Id as in `FittedReading`. */
  readonly reading: string;
  /** In the reading language, without value. */
  readonly text: string;
  readonly measures: 'length' | 'angle';
  /** Least error that would be found 80 times in 100, mm or radians; null where none would. */
  readonly detectable: number | null;
  /** The reading that would check it, in the reading language without value: another, or the same again. */
  readonly check: string;
}

/**
 * Why the adjustment ended. At a minimum: `at rest` (the step left to take is below a billionth of the ±) or `last
 * digit` (χ² changes no more). Short of one: `no descent` (no step lowers χ², yet its gradient is not zero),
 * `iterations spent`, `saddle after saddle`, or `singular` (the readings contradict each other so badly that centres
 * fall on one another).
 */
export type StoppedWhy =
  | 'at rest'
  | 'last digit'
  | 'no descent'
  | 'iterations spent'
  | 'saddle after saddle'
  | 'singular';

/**
 * Everything that the readings of one face say: the centres with their covariance, and what stands against relying on
 * them.
 */
export interface LocatedFace {
  readonly name: string;
  readonly frame: Frame;
  readonly features: ReadonlyMap<string, LocatedFeature>;
  readonly readings: readonly FittedReading[];
  readonly fit: Fit;
  readonly suspects: readonly Suspect[];
  /** What may explain the suspects, likeliest first, until the odds reach 0.95; empty where nothing is suspect. */
  readonly explanations: readonly Explanation[];
  /** The one reading that tells the explanations apart best; null where there is one, or nothing tells them apart. */
  readonly telling: TellingReading | null;
  /** Ids of suspects that the centres do not rest on, since no shape settles along with them; none as a rule. */
  readonly leftOut: readonly string[];
  /** Readings that hardly anything checks. */
  readonly unchecked: readonly UncheckedReading[];
  readonly undetermined: readonly string[];
  /**
   * What takes no part, set aside in the job or when asked: a reading, one of an `at`'s two or a stated diameter, with
   * its text.
   */
  readonly aside: readonly { readonly id: string; readonly text: string }[];
  /** In plain words: what can still move, and about what. */
  readonly freedoms: readonly string[];
  readonly next: readonly NextReading[];
  /** Instrument → its shared zero error and that error's ±, mm or radians. */
  readonly zeros: ReadonlyMap<
    string,
    { readonly measures: 'length' | 'angle'; readonly value: number; readonly plusMinus: number }
  >;
  readonly arrangements: Arrangements;
  /** Whether the mirror image is settled, and by what. */
  readonly hand: { readonly settled: boolean; readonly by: string };
  /**
   * From the bench frame of `at`, `touch` and `rim` points to the face's; null where there is none, or it is not fixed.
   */
  readonly bench: Motion | null;
  /** Chance that at least one sound reading of this face is called suspect. */
  readonly falseAlarm: number;
  readonly stopped: { readonly converged: boolean; readonly why: StoppedWhy; readonly iterations: number };
  readonly warnings: readonly string[];
  /**
   * Joint covariance of the centres of these features, 2n × 2n, mm², rows x₁ y₁ x₂ y₂ …. Throws RangeError for one that
   * is not located.
   */
  readonly covarianceOf: (ids: readonly string[]) => readonly (readonly number[])[];
}

/** A set of centres with their joint covariance: what every later room works on. */
export interface Pattern {
  readonly ids: readonly string[];
  readonly points: readonly Point[];
  /** mm; null where the radius is not known. */
  readonly radii: readonly (number | null)[];
  /** 2n × 2n, mm². */
  readonly covariance: readonly (readonly number[])[];
}
