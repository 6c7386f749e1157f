import type { Clockwise, Point } from '@fayplate/core';
import type { Fit, WorkKind } from '@fayplate/job';

/** From–to, radians clockwise as in the job file; both ends belong to it. */
export interface AngleSpan {
  readonly from: Clockwise;
  readonly to: Clockwise;
}

/** What turning the second face does, over the range that was asked or the whole turn. */
export interface Turning {
  readonly range: AngleSpan;
  /** Where every check that turning can change holds. */
  readonly spans: readonly AngleSpan[];
  /**
   * The angle with the widest margin over the limits, and that margin, mm (negative: no angle holds); null where
   * turning changes nothing.
   */
  readonly best: { readonly angle: number; readonly margin: number } | null;
  /**
   * For a plot: the smallest web between a cut that turns and one that does not, and the least such web over its own
   * limit, mm, at each angle.
   */
  readonly plot: readonly { readonly angle: number; readonly web: number; readonly margin: number }[];
}

/** A check by the name that code and JSON know it by; `checks/all.ts` has the record of each. */
export type CheckId =
  | 'web-between-cuts'
  | 'hole-to-raised-spigot'
  | 'raised-spigot-wall'
  | 'hole-to-edge'
  | 'metal-to-edge'
  | 'counterbore-floor'
  | 'countersink-floor'
  | 'drill-point-floor'
  | 'recess-floor'
  | 'floor-between-cuts'
  | 'nut-under-part'
  | 'cap-screw-under-part'
  | 'socket-room'
  | 'head-seat'
  | 'assembly-order'
  | 'stud-length'
  | 'stud-end'
  | 'dowel-end'
  | 'stud-lean'
  | 'plate-thread'
  | 'bolt-end-room'
  | 'bolt-passes-part'
  | 'part-thread'
  | 'clear-beside'
  | 'clear-above'
  | 'standing-under-part'
  | 'bore-passes-shaft'
  | 'register-fit'
  | 'register-depth'
  | 'register-entry'
  | 'register-wall'
  | 'dowel-count'
  | 'dowels-fight'
  | 'jacking-on-metal'
  | 'set-room'
  | 'goes-on'
  | 'shaft-offset'
  | 'shaft-direction'
  | 'shaft-tilt';

/** One check of the plate with its value and its limit, in `unit`. */
export interface Check {
  readonly id: CheckId;
  /** Its title, for people. */
  readonly rule: string;
  /** Hole and bore ids, feature names (`pump.B1`), or `outline`. */
  readonly of: readonly string[];
  readonly value: number;
  readonly limit: number;
  /** 'mm' unless said: '1' is a count, 'd' diameters, 'deg' degrees, '%' a chance in 100. */
  readonly unit: 'mm' | '1' | 'd' | 'deg' | '%';
  /** Value must be at least the limit, or at most. */
  readonly sense: 'least' | 'most';
  readonly ok: boolean;
  readonly source: string;
  /** What would put it right, best first; empty where it holds. */
  readonly cures: readonly Cure[];
  /** Where to mark it in a picture, plate frame: the thinnest metal of a web; null where it has no one place. */
  readonly at: Point | null;
  /** How high above side A that place lies, mm; left out where no depth is its own. */
  readonly level?: number;
}

/**
 * One value written into the job file: where, and a length in mm, words of the file, or a list of names; '' takes it
 * out.
 */
export interface JobEdit {
  readonly at: readonly string[];
  readonly to: number | string | readonly string[];
}

/** One change to the job. */
export type Step =
  | { readonly kind: 'turn'; /** From the present clocking. */ readonly by: Clockwise }
  | { readonly kind: 'thickness'; readonly to: number }
  | { readonly kind: 'thread'; readonly face: string; readonly thread: string }
  | { readonly kind: 'fit'; readonly face: string; readonly fit: Fit }
  | { readonly kind: 'margin'; readonly to: number }
  | {
      readonly kind: 'treatment';
      readonly face: string;
      readonly says: string;
      /** Work on the part that does it: an entry of the job's `work`; left out: it is none. Lengths mm. */
      readonly work?: { readonly kind: WorkKind; readonly features: readonly string[]; readonly to: number };
      /** What does it in the job file; left out where it is work on a part, or advice. */
      readonly edits?: readonly JobEdit[];
      /** How the job file has it, where `says` does not tell. */ readonly written?: string;
    };

/**
 * A change, or several made together, that has been tried and does put its check right (and breaks no other where it
 * says `clean`).
 */
export type Cure = { readonly clean: boolean } & (
  | Step
  | { readonly kind: 'together'; readonly steps: readonly Step[] }
);
