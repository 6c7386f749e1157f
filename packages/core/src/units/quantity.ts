/** Outcome of reading a written value: the value, or what was expected in words that tell a person what to write. */
export type Parsed<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly expected: string };

/** A value that could be read. */
export const parsed = <T>(value: T): Parsed<T> => ({ ok: true, value });
/** A text that could not, with what was expected in its place. */
export const refused = (expected: string): Parsed<never> => ({ ok: false, expected });

/** A value with its ±, the band that holds 95 times in 100 (coverage factor k = 2, JCGM 100); null where none was written. */
export interface Measure {
  readonly value: number;
  readonly plusMinus: number | null;
}

/** What is doubtful about a value that could be read all the same: its kind, for programs, and what would be expected. */
export interface Doubt {
  readonly code: 'wide-plus-minus' | 'plus-minus-unit';
  readonly expected: string;
}

/** A ± that is larger than its value. */
export const wide: Doubt = { code: 'wide-plus-minus', expected: 'a ± smaller than the value that it belongs to' };
