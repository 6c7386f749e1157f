/**
 * What may name a thing. A feature or a reading is named by one word, since reading lines are parted by spaces, `=` and `-`;
 * faces, instruments and links may have several words. Letters of any script are welcome; signs are not, so that a
 * name is harmless wherever it is printed; nor are letters that cannot be seen (Unicode's Default_Ignorable_Code_Point, DI).
 */
const word = /^(?!.*\p{DI})[\p{L}\p{N}][\p{L}\p{M}\p{N}_]{0,39}$/u;
const words = /^(?=.{1,40}$)(?!.*\p{DI})[\p{L}\p{N}][\p{L}\p{M}\p{N}_]*(?:[ -][\p{L}\p{N}][\p{L}\p{M}\p{N}_]*)*$/u;
const linkWords = /^(?=.{1,40}$)(?!.*\p{DI})[\p{L}\p{N}][\p{L}\p{M}\p{N}_]*(?: [\p{L}\p{N}][\p{L}\p{M}\p{N}_]*)*$/u;

/** Any rule takes these; the tables of all scripts take 10 ms to set up. */
const plain = /^[A-Za-z0-9][A-Za-z0-9_]{0,39}$/;

/** What may name one sort of thing: a test, the same as a pattern for editors, and in words. */
export interface NameRule {
  readonly test: (name: string) => boolean;
  readonly pattern: string;
  readonly expected: string;
}

const rule = (pattern: RegExp, reserved: readonly string[], expected: string): NameRule => ({
  test: (name) => (plain.test(name) || pattern.test(name)) && !reserved.includes(name.toLowerCase()),
  pattern: pattern.source,
  expected,
});

const said = 'letters, digits and _, starting with a letter or digit, at most 40';

/** Names of features and ids of readings: one word. */
export const featureName = rule(word, ['by', 'aside'], `a name of one word: ${said} (and not "by" or "aside")`);
/** Names of faces. */
export const faceName = rule(words, [], `a name: ${said}; words may be parted by one space or hyphen`);
/** Names of instruments. */
export const instrumentName = rule(words, [], `a name: ${said}; words may be parted by one space or hyphen`);
/** Names of links and limits of the stack. */
export const linkName = rule(linkWords, ['shims', 'on hand'], `a name: ${said}; words may be parted by one space`);
