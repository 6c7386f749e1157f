import type { Requirement, Verdict } from '@fayplate/core';
import type { Fault } from '@fayplate/job';

/** A refusal of what was asked, in words for a person; exit status 2. */
export class Refusal extends Error {}

/** What is not made because the readings are not settled; exit status 1, for the answer is not yet. */
export class Unsettled extends Refusal {}

/** Faults of the file that only its centres show, each with its line and column; exit status 2. */
export class Faulty extends Refusal {
  readonly faults: readonly Fault[];
  constructor(faults: readonly Fault[]) {
    super(faults.map((f) => `line ${f.line}: expected ${f.expected}`).join('\n'));
    this.faults = faults;
  }
}

/** No plate can be drawn at all, though nothing is wrong with the file; exit status 1, for the answer is no. */
export class Unmet extends Refusal {
  readonly requirements: readonly Requirement[];
  constructor(words: string, requirements: readonly Requirement[]) {
    super(words);
    this.requirements = requirements;
  }
}

/**
 * What is thrown where no table can be made of a plate: where the blank at hand does not hold it that is the answer
 * about the whole job, else these faults are of what was asked.
 */
export const noTable = (faults: readonly string[], { requirements }: Verdict): Refusal =>
  requirements.some((r) => r.id === 'blank' && r.state === 'fails')
    ? new Unmet(faults.join('\n'), requirements)
    : new Refusal(faults.join('\n'));

/** What is there, or a refusal in these words. */
export const need = <T>(value: T | null | undefined, words: string): T => {
  if (value === null || value === undefined) throw new Refusal(words);
  return value;
};
