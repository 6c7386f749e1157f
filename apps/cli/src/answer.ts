import type { Report } from '@fayplate/core';

/** What a command has to say: for a program, for a person, and the exit status (0 sound, 1 the answer is 'no'). */
export interface Answer {
  readonly code: 0 | 1;
  readonly json: object;
  readonly report: Report;
  /** What `--verbose` adds. */
  readonly more?: () => Report;
  /** A file asked for in place of words: printed, or written to `out`. */
  readonly file?: { readonly content: string; readonly out: string | null; readonly force: boolean };
}

/** A refusal of what was asked, in words; exit status 2. */
export class Refusal extends Error {}

/** The computation did not reach an answer; exit status 3 with the state that it was in. */
export class NoAnswer extends Error {
  readonly state: Readonly<Record<string, unknown>>;
  constructor(message: string, state: Readonly<Record<string, unknown>>) {
    super(message);
    this.state = state;
  }
}
