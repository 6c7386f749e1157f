import { distance } from 'fastest-levenshtein';

/**
 * What may name a thing. A feature or a reading is named by one word, since reading lines are parted by spaces, `=` and
 * `-`; faces, instruments and links may have several words. Letters of any script are welcome; signs are not, so that a
 * name is harmless wherever it is printed; nor are letters that cannot be seen (Unicode's Default_Ignorable_Code_Point,
 * DI).
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
/** Names of faces, cuts, places, moves and work. */
export const faceName = rule(words, [], `a name: ${said}; words may be separated by one space or hyphen`);
/** Names of instruments. */
export const instrumentName = rule(words, [], `a name: ${said}; words may be separated by one space or hyphen`);
/** Names of links and limits of the stack: a sum has a hyphen for minus. */
export const linkName = rule(linkWords, ['shims', 'on hand'], `a name: ${said}; words may be separated by one space`);

/** Slips allowed in a word: none in one letter, one in two or three, two in four to eight, then a third of it. */
const slips = (word: string): number =>
  word.length < 2 ? 0 : word.length < 4 ? 1 : Math.max(2, Math.floor(word.length / 3));

/** `inch` for `in`, `diameter` for `dia`: one is the start of the other; `at least` for `least`: its last word. */
const opens = (a: string, b: string): boolean =>
  Math.min(a.length, b.length) >= 2 && (a.startsWith(b) || b.startsWith(a) || (b.length > 2 && a.endsWith(` ${b}`)));

/** `5/16` for `5/16-18 UNC`: all of its first word. */
const firstWord = (word: string, name: string): boolean =>
  word.length >= 3 && name.startsWith(word) && /^[\s-]/.test(name.slice(word.length));
const AS_FIRST_WORD = 0.75;

/**
 * The name that a person most likely meant: the one whose first word it is, least edit distance, then one that starts
 * alike, case set aside; the first of equals. Null where none is close, or the word is too long to be a name.
 */
export const nearestName = (word: string, names: readonly string[]): string | null => {
  const w = word.trim().toLowerCase();
  if (w === '' || w.length > 60) return null;
  let best: string | null = null;
  const allowed = slips(w);
  let least = allowed + 0.5;
  for (const name of names) {
    const n = name.toLowerCase();
    const edits = distance(w, n);
    const d =
      name === word
        ? Infinity
        : firstWord(w, n)
          ? Math.min(edits, AS_FIRST_WORD)
          : edits > allowed && opens(w, n)
            ? allowed + 0.25
            : edits;
    if (d < least) {
      best = name;
      least = d;
    }
  }
  return best;
};
