import { distance } from 'fastest-levenshtein';

/** Slips allowed in a word: none in one letter, one in two or three, two in four to eight, then a third of it. */
const slips = (word: string): number =>
  word.length < 2 ? 0 : word.length < 4 ? 1 : Math.max(2, Math.floor(word.length / 3));

/** `inch` for `in`, `diameter` for `dia`: one is the start of the other. */
const opens = (a: string, b: string): boolean =>
  Math.min(a.length, b.length) >= 2 && (a.startsWith(b) || b.startsWith(a));

/** `5/16` for `5/16-18 UNC`: all of its first word. */
const firstWord = (word: string, name: string): boolean =>
  word.length >= 3 && name.startsWith(word) && /^[\s-]/.test(name.slice(word.length));
const AS_FIRST_WORD = 0.75;

/**
 * The name that a person most likely meant: the one whose first word it is, least edit distance, then one that starts alike, case set aside; the first of equals. Null where none
 * is close, or the word is too long to be a name.
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
          : edits > allowed && opens(n, w)
            ? allowed + 0.25
            : edits;
    if (d < least) {
      best = name;
      least = d;
    }
  }
  return best;
};
