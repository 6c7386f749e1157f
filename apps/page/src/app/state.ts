import type { Report } from '@fayplate/core';
import { type History, begun } from '../edit/history.js';
import type { Disk } from '../kept/disk.js';
import type { FilesWish, MadeFile, Screen, WordNode } from '../work/protocol.js';
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
} from '../work/shown.js';

/** A word that stays until the person has read it, with what can be done about it. */
export interface Notice {
  readonly id: string;
  readonly words: string;
  readonly actions: readonly { readonly says: string; readonly act: () => void }[];
}

/** Answers of the worker, each the last that came; they stay while a newer one is worked out. */
export interface Answers {
  readonly faults: readonly Told[];
  readonly warnings: readonly Told[];
  /** Lists of readings that the job names and the page has not been given. */
  readonly missing: readonly string[];
  readonly faces: Readonly<Record<string, FaceView>>;
  readonly plans: Readonly<Record<string, readonly PlanItem[]>>;
  readonly improving: Readonly<Record<string, readonly PlanItem[]>>;
  readonly layouts: Readonly<Record<string, LayoutView>>;
  readonly stack: StackView | null;
  readonly plate: PlateView | null;
  readonly make: MakeView | null;
  readonly prove: ProveView | null;
  /** Why a page has no answer, in words. */
  readonly refused: Readonly<Partial<Record<Screen | 'files' | 'new', string>>>;
}

export interface State {
  readonly history: History;
  /** Name of the file that the job was opened from or saved to. */
  readonly file: string | null;
  /** The text as it stands in that file; null: never saved. */
  readonly saved: string | null;
  /** That file itself, where the browser writes to it. */
  readonly disk: Disk | null;
  readonly lists: Readonly<Record<string, string>>;
  readonly ticked: readonly string[];
  readonly screen: Screen;
  readonly face: string | null;
  /** How much larger the step from measured to intended is drawn; null: what suits. */
  readonly times: number | null;
  /** Which of two pieces of a plate is looked at. */
  readonly piece: number;
  /** How far the drawing of a face is turned by hand, degrees clockwise. */
  readonly turns: Readonly<Record<string, number>>;
  readonly textShown: boolean;
  readonly newShown: boolean;
  /** Where the editor is to go: a place in the text, and a count that tells one wish from the next. */
  readonly goTo: { readonly at: number; readonly n: number } | null;
  readonly answers: Answers;
  readonly schema: object | null;
  /** Every word of the job file, for the forms; null: not asked for yet. */
  readonly words: WordNode | null;
  /** What was looked up in the handbook last. */
  readonly looked: LookView | null;
  /** What is being worked out, and how far it is (0 … 1); null: nothing. */
  readonly working: { readonly what: string; readonly share: number | null } | null;
  /** How the last work ended where it did not end by itself. */
  readonly ended: string | null;
  /** Whether the browser has the last key on its disk; 'none': it gives this page no store. */
  readonly keeping: 'kept' | 'keeping' | 'none' | 'full';
  readonly notices: readonly Notice[];
  readonly files: {
    readonly which: FilesWish;
    readonly report: Report;
    readonly files: readonly MadeFile[];
    readonly sound: boolean;
    readonly warnings: readonly string[];
    /** The text that they were made from. */
    readonly text: string;
  } | null;
}

/** The answer about one face: a face may be called `constructor`. */
export const answerOf = <T>(answers: Readonly<Record<string, T>>, face: string): T | undefined =>
  Object.hasOwn(answers, face) ? answers[face] : undefined;

export const noAnswers: Answers = {
  faults: [],
  warnings: [],
  missing: [],
  faces: {},
  plans: {},
  improving: {},
  layouts: {},
  stack: null,
  plate: null,
  make: null,
  prove: null,
  refused: {},
};

export const startState = (text: string): State => ({
  history: begun(text),
  file: null,
  saved: null,
  disk: null,
  lists: {},
  ticked: [],
  screen: 'measure',
  face: null,
  times: null,
  piece: 0,
  turns: {},
  textShown: false,
  newShown: false,
  goTo: null,
  answers: noAnswers,
  schema: null,
  words: null,
  looked: null,
  working: null,
  ended: null,
  keeping: 'keeping',
  notices: [],
  files: null,
});
