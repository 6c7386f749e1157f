import type { Report } from '@fayplate/core';
import type {
  FaceView,
  LayoutView,
  LookView,
  MakeView,
  PlanItem,
  PlateView,
  ProveView,
  StackView,
  Told,
} from './shown.js';

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

export type Word =
  | { readonly ready: true }
  | { readonly id: number; readonly part: Part }
  | { readonly id: number; readonly progress: { readonly what: string; readonly share: number } }
  | { readonly id: number; readonly done: true }
  | { readonly id: number; readonly broke: string };
