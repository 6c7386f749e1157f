/** A refusal of what was asked, in words for a person; exit status 2. */
export class Refusal extends Error {}

/** What is not made because the readings are not settled; exit status 1, for the answer is not yet. */
export class Unsettled extends Refusal {}

/** What is there, or a refusal in these words. */
export const need = <T>(value: T | null | undefined, words: string): T => {
  if (value === null || value === undefined) throw new Refusal(words);
  return value;
};
