import type { Report } from '@fayplate/core';
import type { NamedPlace } from '@fayplate/pictures';

/** A fault or warning with its place in the text, for the editor and for the box that it belongs to. */
export interface Told {
  readonly line: number;
  readonly column: number;
  readonly path: string;
  readonly words: string;
  readonly found: string;
  readonly file: string | null;
}

/** SVG of our own writer with the box that it shows: mm, y up. */
export interface Drawn {
  readonly name: string;
  readonly title: string;
  readonly notes: readonly string[];
  readonly svg: string;
  readonly box: { readonly left: number; readonly bottom: number; readonly right: number; readonly top: number };
}

/** A place on a drawing that can be pointed at: mm in the drawing's frame, y up. */
export interface Mark {
  readonly id: string;
  readonly x: number;
  readonly y: number;
  readonly r: number;
  readonly says: string;
}

export interface PlanItem {
  /** Without its number: `over P1 P3`. */
  readonly head: string;
  readonly instrument: string | null;
  readonly says: string;
}

export interface FaceView {
  readonly name: string;
  readonly picture: Drawn;
  /** Whether the places are located, or only sketched from the clocks. */
  readonly sketch: boolean;
  readonly marks: readonly Mark[];
  /** Feature → its x, y and ± in words of the job's unit; '' where it is not fixed. */
  readonly centres: readonly { readonly id: string; readonly x: string; readonly y: string; readonly band: string }[];
  readonly suspects: readonly { readonly reading: string; readonly says: string }[];
  /** The one reading that settles what is in doubt, and what its value means; null where nothing is, or none would. */
  readonly settles: (PlanItem & { readonly means: string }) | null;
  /** Whether the readings agree as a whole. */
  readonly agrees: boolean;
  /** Not yet: the picture follows the key, and what is wrong is still looked for. */
  readonly weighed: boolean;
  readonly undetermined: readonly string[];
  readonly report: Report;
  readonly ok: boolean;
  /** Every feature is fixed, and as many readings check the others as the plan would ask for. */
  readonly enough: boolean;
}

/** One requirement that is not met, with what would help: each cure edits the job. */
export interface Cure {
  readonly says: string;
  readonly edits: readonly {
    readonly path: readonly (string | number)[];
    readonly value: string | readonly string[];
  }[];
}

/** What the handbook says of one thing. */
export interface LookView {
  /** Why it has no answer; null: it has one. */
  readonly refused: string | null;
  readonly report: Report;
  /** A standard face at true proportions, and its name for the job file. */
  readonly face: { readonly name: string; readonly picture: Drawn } | null;
}

export interface LayoutView {
  readonly picture: Drawn;
  readonly times: number;
  readonly report: Report;
  readonly ok: boolean;
  /** Whether there is a layout that could be taken. */
  readonly takes: boolean;
}
export interface StackView {
  readonly ok: boolean;
  readonly report: Report;
  readonly pictures: readonly Drawn[];
  /** The chain as a section, and where on it each link and limit is named. */
  readonly section: { readonly picture: Drawn; readonly places: readonly NamedPlace[] };
  /** mm, as a band to draw: what is searched, what holds at the worst and by chance, what is chosen. */
  readonly window: {
    readonly search: readonly [number, number];
    readonly worst: readonly [number, number] | null;
    readonly chance: readonly [number, number] | null;
    readonly chosen: number | null;
    readonly says: (readonly [string, string])[];
  };
}
export interface PlateView {
  readonly ok: boolean;
  readonly report: Report;
  readonly sideA: Drawn;
  readonly sideB: Drawn;
  readonly section: Drawn;
  readonly turning: Drawn | null;
  readonly holes: readonly Mark[];
  /** Checks that fail or are tight, at their place on side B; `of` names the cuts. */
  readonly checks: readonly {
    readonly title: string;
    readonly of: string;
    readonly value: string;
    readonly limit: string;
    readonly ok: boolean;
    readonly at: readonly [number, number] | null;
  }[];
  readonly cures: readonly Cure[];
  /** What is not known yet and keeps the answer from Yes, with what settles it. */
  readonly open: readonly { readonly title: string; readonly because: string; readonly cure: string }[];
  /** Ids of the holes that turn with the second part. */
  readonly turns: readonly string[];
  /** Degrees clockwise: the present turn, and where every check holds, as searched. */
  readonly clocking: { readonly at: number; readonly safe: readonly (readonly [number, number])[] };
}
/** One row of the machinist's table, in words of its unit. */
export interface CutRow {
  /** The same for the same cut of the same table, so that a tick stays with it. */
  readonly id: string;
  readonly n: number;
  readonly hole: string;
  readonly tool: string;
  readonly op: string;
  readonly x: string;
  readonly y: string;
  readonly depth: string;
  readonly speed: string;
  readonly note: string;
}
export interface MakeView {
  readonly ok: boolean;
  /** The one answer about the whole job, and what it rests on. */
  readonly answer: string;
  readonly because: string;
  readonly report: Report;
  readonly pictures: readonly Drawn[];
  /** Parts, gaskets and plate pulled apart along the shaft. */
  readonly apart: Drawn;
  readonly settings: readonly {
    readonly id: string;
    /** `Side B up`, or `Side B up, setting 1 of 2`. */
    readonly title: string;
    readonly says: string;
    readonly cuts: readonly CutRow[];
  }[];
  readonly unit: string;
}
export interface ProveView {
  /** Null before drilling. */
  readonly ok: boolean | null;
  readonly report: Report;
  /** How to go on with a plate that is drilled in part or went wrong; empty where nothing is to be said. */
  readonly midway: Report;
  readonly picture: Drawn;
  readonly marks: readonly Mark[];
  readonly plan: readonly PlanItem[];
  readonly suspects: readonly { readonly reading: string; readonly says: string }[];
}
