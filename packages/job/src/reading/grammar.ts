import type { ReadingKind } from '../types.js';

/** How the words of a reading line fit together, and what the numbers mean. */
export interface Grammar {
  readonly kind: ReadingKind;
  /** The features as written: a letter for one, `A-B` for the line through two. */
  readonly form: readonly string[];
  readonly measures: 'length' | 'angle' | 'place';
  /** What the reading says where it needs no number: square is 90°, in line is 0. */
  readonly implied: number | null;
  /** Least value that makes sense, mm or radians, and whether it may be reached. */
  readonly least: number;
  readonly leastReached: boolean;
  /** Features (by position) whose radius enters. */
  readonly radius: readonly number[];
  readonly example: string;
}

const grammar = (
  kind: ReadingKind,
  form: string,
  example: string,
  rest: Partial<Pick<Grammar, 'measures' | 'implied' | 'least' | 'leastReached' | 'radius'>> = {},
): Grammar => ({
  kind,
  form: form.split(' '),
  measures: 'length',
  implied: null,
  least: 0,
  leastReached: false,
  radius: [],
  example,
  ...rest,
});

export const grammars: readonly Grammar[] = [
  grammar('centres', 'A B', 'centres A B = 4 1/8'),
  grammar('over', 'A B', 'over A B = 4 1/8', { radius: [0, 1] }),
  grammar('between', 'A B', 'between A B = 4 1/8', { leastReached: true, radius: [0, 1] }),
  grammar('step', 'A B', 'step A B = 4 1/8', { least: -Infinity, leastReached: true, radius: [0, 1] }),
  grammar('wall', 'A C', 'wall A C = 1/2', { leastReached: true, radius: [0, 1] }),
  grammar('dia', 'A', 'dia A = 3/8', { radius: [0] }),
  grammar('angle', 'A V B', 'angle A V B = 60', { measures: 'angle', leastReached: true }),
  grammar('square', 'A-B C-D', 'square A-B C-D', { measures: 'angle', implied: Math.PI / 2 }),
  grammar('line', 'A B C', 'line A B C', { implied: 0 }),
  grammar('flush', 'A B C', 'flush A B C', { implied: 0, radius: [0, 1, 2] }),
  grammar('offset', 'A B-C', 'offset A B-C = 2 1/4', { leastReached: true }),
  grammar('at', 'A', 'at A = (12.5, -40)', { measures: 'place' }),
  grammar('touch', 'C', 'touch C = (12.5, -40)', { measures: 'place', radius: [0] }),
];

/** The kinds of reading, in the order of the README's table. */
export const readingKinds: readonly ReadingKind[] = grammars.map((g) => g.kind);

const kinds: ReadonlySet<string> = new Set(readingKinds);

/** Whether a text begins with a kind of reading and what it is of. */
export const beginsReading = (text: string): boolean => {
  const [kind = '', of = ''] = text.split(/\s+/, 2);
  return kinds.has(kind.toLowerCase()) && of !== '';
};

export const grammarOf = (kind: string): Grammar | undefined => grammars.find((g) => g.kind === kind.toLowerCase());
