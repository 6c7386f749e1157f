/** A refusal of what was asked, in words for a person; exit status 2. */
export class Refusal extends Error {}

/** What is not made because the readings are not settled; exit status 1, for the answer is not yet. */
export class Unsettled extends Refusal {}

/** The computation did not reach an answer; exit status 3 with the state that it was in. */
export class NoAnswer extends Error {
  readonly state: Readonly<Record<string, unknown>>;
  constructor(message: string, state: Readonly<Record<string, unknown>>) {
    super(message);
    this.state = state;
  }
}

/** What is there, or a refusal in these words. */
export const need = <T>(value: T | null | undefined, words: string): T => {
  if (value === null || value === undefined) throw new Refusal(words);
  return value;
};
