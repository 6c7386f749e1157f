import type { Measure, Point } from '@fayplate/core';

/** What the shop has; null: not said. Lengths in mm, speed in turns a minute, ratio in crank turns a turn. */
export interface MachineSpec {
  readonly step: number | null;
  readonly topSpeed: number | null;
  readonly screwPitch: number | null;
  /** How far the table travels, mm; left out: not said. */
  readonly travel?: { readonly x: number; readonly y: number };
  /** Signs from which a hole is approached, such as { x: -1, y: -1 }. */
  readonly backlash: { readonly x: -1 | 0 | 1; readonly y: -1 | 0 | 1 } | null;
  /** Diameters on hand, mm, with the name as written. */
  readonly drills: readonly Tool[] | null;
  readonly punches: readonly Tool[] | null;
  readonly reamers: readonly Tool[] | null;
  /** Threads whose taps are on hand; left out: not said. */
  readonly taps?: readonly string[];
  /** Smallest division of a rotary table, radians. */
  readonly rotaryTable?: number;
  /** How far the vice opens and how wide its jaws are, mm. */
  readonly vice?: { readonly opens: number; readonly jaws: number | null };
  /** Of the clamps over the toe, mm. */
  readonly clampWidth?: number;
  readonly dividingHead: { readonly ratio: number; readonly circles: readonly number[] } | null;
  readonly tip: number | null;
  /** The metal on hand, mm; `thickness`: as bought, null where not said. */
  readonly blank: { readonly width: number; readonly height: number; readonly thickness: number | null } | null;
  /** Metal left round the outline on every side until it is sawn, mm; null: the usual. */
  readonly allowance: number | null;
  /** Height of rapid moves above the face of the plate, mm; null: the usual. */
  readonly safePlane: number | null;
  /** Most room between the spindle and the table, mm; null: not said. */
  readonly room: number | null;
  readonly clamps: readonly { readonly from: Point; readonly to: Point }[];
  /**
   * The end mill that cuts the outline, mm; left out: the outline is sawn and filed. `tabs` and `leave` are left out
   * where the usual goes.
   */
  readonly outline?: { readonly cutter: number; readonly tabs?: number; readonly leave?: number };
}

/** A tool by the name that it is known by and its diameter, mm. */
export interface Tool {
  readonly name: string;
  readonly diameter: number;
}

/** How sheets are printed. Lengths in mm; null: not said. */
export interface PrintSpec {
  /** A name (`A4`, `Letter`) or `210 x 297 mm`, as written. */
  readonly paper: string | null;
  readonly margin: number | null;
  readonly overlap: number | null;
  readonly printer: string | null;
}

/**
 * What is done to a part: studs or dowels or the shaft shortened, longer studs fitted, holes opened or threads
 * deepened, a lip relieved.
 */
export type WorkKind = 'shorten' | 'fit' | 'open' | 'deepen' | 'relieve' | 'shorten shaft';

/** A piece of work on a part. Lengths in mm. */
export interface PartWork {
  readonly name: string;
  readonly face: string;
  readonly kind: WorkKind;
  /** Features that it is done to; none for the shaft. */
  readonly features: readonly string[];
  /** Feature → the length before it: how far it stands out, its diameter or depth; null where not given. */
  readonly from: ReadonlyMap<string, number | null>;
  /** The length after it; 0: flush. */
  readonly to: Measure;
  /** Of a shaft: the link of the stack that is its reach; null: that of the old plate, or none. */
  readonly link: string | null;
  readonly done: boolean;
  readonly why: string | null;
}

/** The title block of a drawing for another shop; null: not given. */
export interface DrawingSpec {
  readonly number: string | null;
  readonly revision: string | null;
  readonly by: string | null;
  /** The day as written. */
  readonly date: string | null;
  /** Whose habits it follows; null: ISO for a job in mm, ASME for one in inches. */
  readonly standard: 'ISO' | 'ASME' | null;
  /** Most that edges are broken by, mm. */
  readonly edges: number | null;
  /** Surface as it is asked for, such as `Ra 3.2`. */
  readonly surface: string | null;
}
