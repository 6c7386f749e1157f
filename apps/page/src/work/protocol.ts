import type { Report } from '@fayplate/core';
import type { NamedPlace } from '@fayplate/pictures';

/** The pages of the work, in its order. */
export const screens = ['measure', 'understand', 'stack', 'plate', 'make', 'prove'] as const;
export type Screen = (typeof screens)[number];

/** What the page asks of its worker: one job, and what is looked at. */
export interface Ask {
  readonly id: number;
  readonly text: string;
  /** CSV lists of readings that the job names: name → text. */
  readonly lists: Readonly<Record<string, string>>;
  readonly what: Wish;
  /** Where the features of the face in hand were drawn last; none where it was not drawn yet. */
  readonly near: Places;
}

/** Feature → x, y in its face's frame, mm. */
export type Places = Readonly<Record<string, readonly [number, number]>>;

/**
 * Answers that are worked out when they are asked for: before buying, a trial assembly, a comparison, what is left to
 * drill.
 */
export type AnswerWish = 'buy' | 'trial' | 'compare' | 'prove';

/** Files that are made when they are asked for: the whole packet, or one print of this kind; or an answer in words. */
export type FilesWish =
  | 'packet'
  | 'drill'
  | 'assembly'
  | 'exploded'
  | 'drawing'
  | 'test-piece'
  | 'readings'
  | 'part'
  | 'depths'
  | 'gasket'
  /** What to ask a seller for. */
  | 'buy-sheet'
  | AnswerWish;

/** How files are made, as typed; what is left out is as the command line has it. */
export interface HowMade {
  /** `compare`: the job file as it was. */
  readonly earlier?: string;
  /** `packet`: the appendix too. */
  readonly full?: boolean;
  /** The side of the plate that faces the person. */
  readonly side?: string;
  /** Template and gaskets: one SVG at true scale instead of sheets. */
  readonly svg?: boolean;
  /** Of a test piece: the width of a laser's burn, and how thick it is. */
  readonly kerf?: string;
  readonly thick?: string;
  /** `prove`: which of the ways to go on, from 1. */
  readonly way?: number;
}

export type Wish =
  | {
      readonly screen: Screen;
      readonly face: string | null;
      readonly times: number | null;
      /** Of a plate of two pieces, the one that is looked at; null where it is of one. */
      readonly piece: string | null;
      /** How far the drawing of a face is turned by hand, degrees clockwise. */
      readonly turns: Readonly<Record<string, number>>;
    }
  | {
      readonly screen: 'files';
      readonly which: FilesWish;
      /** Of a plate of two pieces, the one that is printed; null where it is of one. */
      readonly piece: string | null;
      readonly how: HowMade;
    }
  | { readonly screen: 'new'; readonly starter: StarterWish }
  | { readonly screen: 'schema' }
  | { readonly screen: 'look'; readonly kind: string; readonly what: string };

/** What a new job is begun from, as typed. */
export interface StarterWish {
  readonly job: string;
  readonly units: 'in' | 'mm';
  readonly caliper: string;
  readonly parts: readonly [PartWish, PartWish];
}
export interface PartWish {
  readonly name: string;
  readonly middle: string;
  readonly fasteners: string;
  readonly clocks: string;
}

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

export interface MadeFile {
  readonly name: string;
  readonly says: string;
  readonly bytes: Uint8Array;
}

/** What comes back, piece by piece, the soonest first. */
export type Part =
  | {
      readonly kind: 'read';
      readonly ok: boolean;
      readonly faults: readonly Told[];
      readonly warnings: readonly Told[];
      readonly lists: readonly string[];
    }
  | { readonly kind: 'face'; readonly view: FaceView }
  | { readonly kind: 'plan'; readonly face: string; readonly plan: readonly PlanItem[] }
  /** What would make the worst centre improving, the most telling first. */
  | { readonly kind: 'improving'; readonly face: string; readonly improving: readonly PlanItem[] }
  | { readonly kind: 'layout'; readonly face: string; readonly view: LayoutView }
  | { readonly kind: 'stack'; readonly view: StackView }
  | { readonly kind: 'plate'; readonly view: PlateView }
  | { readonly kind: 'make'; readonly view: MakeView }
  | { readonly kind: 'prove'; readonly view: ProveView }
  | { readonly kind: 'refused'; readonly screen: Screen | 'files' | 'new'; readonly words: string }
  | {
      readonly kind: 'files';
      readonly which: FilesWish;
      /** What is said of it. */
      readonly report: Report;
      readonly files: readonly MadeFile[];
      /** All of them as one .zip; null for a single file. */
      readonly zip: Uint8Array | null;
      readonly sound: boolean;
      readonly warnings: readonly string[];
    }
  | { readonly kind: 'begun'; readonly text: string }
  | { readonly kind: 'schema'; readonly schema: object; readonly words: WordNode }
  | { readonly kind: 'looked'; readonly view: LookView };

/** One word of the job file as a form shows it. */
export interface WordNode {
  /** As it is written; '' for what stands in a list or under a name of the job's own. */
  readonly key: string;
  readonly means: string;
  readonly needed: boolean;
  /** What holds where it is left out, in words; null where nothing is said. */
  readonly left: string | null;
  /** What a number without a unit means; null where it has none. */
  readonly unit: string | null;
  /** Each way to write it, the usual one first; no two of a kind. */
  readonly ways: readonly Way[];
}
export type Way =
  | { readonly kind: 'text'; readonly takes: string; readonly examples: readonly string[] }
  | { readonly kind: 'words'; readonly of: readonly string[] }
  | { readonly kind: 'section'; readonly keys: readonly WordNode[] }
  /** A section of names of the job's own; `keys`: names in it that mean something to us. */
  | { readonly kind: 'names'; readonly each: WordNode; readonly keys: readonly WordNode[] }
  | { readonly kind: 'list'; readonly each: WordNode };

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

export type Word =
  | { readonly ready: true }
  | { readonly id: number; readonly part: Part }
  | { readonly id: number; readonly progress: { readonly what: string; readonly share: number } }
  | { readonly id: number; readonly done: true }
  | { readonly id: number; readonly broke: string };
