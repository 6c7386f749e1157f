import { type Change, changed, undoing } from './change.js';

/** One step that can be taken back: what was done, what takes it back, and the box or editor it was typed in. */
export interface Step {
  readonly done: Change;
  readonly undo: Change;
  /** Keys typed one after another in one place make one step; null: a step of its own. */
  readonly typed: string | null;
}

/** A text with every step that led to it, and those taken back: without end. */
export interface History {
  readonly text: string;
  readonly past: readonly Step[];
  readonly future: readonly Step[];
}

export const begun = (text: string): History => ({ text, past: [], future: [] });

/** Two changes, one right after the other in one stretch, as one; null where they do not touch. */
const joined = (a: Step, b: Change, before: string): Step | null => {
  const end = a.done.from + a.done.insert.length;
  if (b.from < a.done.from || b.from > end || b.to > end) return null;
  const inner = { from: b.from - a.done.from, to: b.to - a.done.from, insert: b.insert };
  const done = { ...a.done, insert: changed(a.done.insert, inner) };
  return { done, undo: undoing(before, done), typed: a.typed };
};

/**
 * The history after one more change. Keys typed in the same place join the step before, so that undo takes back a value
 * and not a digit.
 */
export const did = (history: History, change: Change, typed: string | null): History => {
  const { text, past } = history;
  const after = changed(text, change);
  const last = past.at(-1);
  if (typed !== null && last !== undefined && last.typed === typed && history.future.length === 0) {
    const one = joined(last, change, changed(text, last.undo));
    if (one !== null) return { text: after, past: [...past.slice(0, -1), one], future: [] };
  }
  return { text: after, past: [...past, { done: change, undo: undoing(text, change), typed }], future: [] };
};

export const undone = (history: History): History => {
  const last = history.past.at(-1);
  return last === undefined
    ? history
    : {
        text: changed(history.text, last.undo),
        past: history.past.slice(0, -1),
        future: [...history.future, { ...last, typed: null }],
      };
};

export const redone = (history: History): History => {
  const next = history.future.at(-1);
  return next === undefined
    ? history
    : {
        text: changed(history.text, next.done),
        past: [...history.past, next],
        future: history.future.slice(0, -1),
      };
};

/** Steps that the browser keeps against a crash, of each kind; in the open page there is no end to them. */
const KEPT = 1000;

/** What a crash must leave of a history beside its text. */
export const stepsOf = ({ past, future }: History): Pick<History, 'past' | 'future'> => ({
  past: past.slice(-KEPT),
  future: future.slice(-KEPT),
});
