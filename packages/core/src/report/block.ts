import { type Answer, sayAnswer } from './requirement.js';

/**
 * What a room has to say to a person, free of the medium: the terminal, the packet's pages and the web page
 * all lay out the same blocks.
 */
export type Block =
  | { readonly kind: 'heading'; readonly level: 1 | 2 | 3; readonly text: string }
  /** The answer itself, first of all: yes or no, and why. `answer` where it is neither: Not yet. */
  | VerdictBlock
  | { readonly kind: 'paragraph'; readonly text: string }
  | { readonly kind: 'list'; readonly items: readonly string[] }
  /** Where the work can hurt someone; shown once in a packet. */
  | { readonly kind: 'caution'; readonly text: string }
  | TableBlock;

/** A table: its columns, and as many texts in each row. */
export interface VerdictBlock {
  readonly kind: 'verdict';
  readonly ok: boolean;
  readonly answer?: Answer;
  /** Nothing rests on it: a dash stands for the answer, since neither a tick nor a cross would be true. */
  readonly needed?: false;
  readonly text: string;
}

/** What stands before the words of a verdict: `Yes:`, `Not yet:`, `No:`, or `–` where nothing rests on it. */
export const verdictWord = ({ ok, answer, needed }: Pick<VerdictBlock, 'ok' | 'answer' | 'needed'>): string =>
  needed === false ? '–' : `${sayAnswer(answer ?? (ok ? 'yes' : 'no'))}:`;

/** A table: its columns, and as many texts in each row. */
export interface TableBlock {
  readonly kind: 'table';
  readonly caption: string | null;
  readonly columns: readonly Column[];
  /**
   * The rows are cuts of this side, each to be ticked when it is done: numbered in the first column, the hole named
   * under `Hole`.
   */
  readonly cutsOf?: 'A' | 'B';
  /** Rows from this one on, counted from 0, stand under a line of their own, such as the tool that cuts them. */
  readonly groups?: readonly { readonly from: number; readonly title: string }[];
  /** One text for each column; '' for an empty cell. */
  readonly rows: readonly (readonly string[])[];
}

/** `point` lines numbers up on their decimal point. */
export interface Column {
  readonly title: string;
  readonly align: 'left' | 'right' | 'point';
  /** An empty cell is as the one above it: pages that a table goes on to say it again. */
  readonly runsOn?: boolean;
}

/** Blocks in the order in which they are read. */
export type Report = readonly Block[];
