/** A fault or a warning of the input, for a person: where, what was found, what was expected. */
export interface Fault {
  /** What kind of fault it is: a word that stays, for programs. */
  readonly code: FaultCode;
  readonly line: number;
  readonly column: number;
  /** The offending text, shortened where long. */
  readonly found: string;
  readonly expected: string;
  /** A name that exists and is close to the one written. */
  readonly nearest: string | null;
  /** Dotted place in the file, such as `faces.pump.features.P1.diameter`. */
  readonly path: string;
  /** The CSV list that line and column are in; null for the job file itself. */
  readonly file: string | null;
}

/**
 * What kind of fault or warning it is: a stable word for programs, beside the sentence for people, which may be put
 * better at any time. Faults first, then warnings.
 */
export type FaultCode =
  /** The file cannot be read as text: its size, its encoding, a character that no editor shows. */
  | 'file'
  /** Brackets, quotes, indents, colons. */
  | 'syntax'
  /** Anchors, aliases, tags, merge keys: YAML that a job has no use for. */
  | 'alias'
  /** More of something than a job may hold. */
  | 'too-many'
  | 'unknown-key'
  /** Something needed is not there. */
  | 'missing'
  /** The same thing stands twice. */
  | 'twice'
  /** A value that cannot be read, or cannot be meant. */
  | 'value'
  /** A name that may not stand as one. */
  | 'bad-name'
  /** A name that nothing in the job, or in the tables, has. */
  | 'unknown-name'
  /** A reading that begins with no kind of reading. */
  | 'unknown-kind'
  /** The features of a reading are not as its kind asks. */
  | 'features'
  /** A reading without ± and without an instrument. */
  | 'no-plus-minus'
  /** An instrument that measures something else. */
  | 'wrong-instrument'
  /** A reading that reaches the rim of a feature whose diameter nothing gives. */
  | 'no-diameter'
  /** A list of readings beside the job: its name, its heading, its cells. */
  | 'list'
  /** A key that has no meaning where it stands. */
  | 'out-of-place'
  /** Two things that cannot both be so. */
  | 'conflict'
  /** Points of an outline that is none: it crosses itself. */
  | 'crossed-rim'
  // Warnings
  | 'wide-plus-minus'
  | 'plus-minus-unit'
  | 'uneven-place'
  | 'fat-stud'
  | 'no-stack'
  | 'same-clock'
  | 'up-elsewhere'
  | 'unused-instrument'
  | 'coarse-instrument'
  | 'fine-instrument'
  /** A flange so thin or thick that it was likely meant in the other unit. */
  | 'unlikely-flange'
  | 'unchecked-standard'
  | 'unlike-standard'
  /** Features that are said to be of one size are not. */
  | 'not-alike';
