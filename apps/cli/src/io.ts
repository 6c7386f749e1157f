import type { Bytes } from './files/write.js';

/** The world as a command sees it, so that tests can hand in one of their own. */
export interface Io {
  readonly out: (text: string) => void;
  readonly err: (text: string) => void;
  /** Text of a file, or of standard input for `-`. Throws the file system's error. */
  readonly read: (path: string) => string;
  readonly write: (path: string, content: Bytes, force: boolean) => void;
  /** Folder for what is kept between jobs: printers' measured scales. */
  readonly settings: string;
  readonly columns: number;
  readonly colour: boolean;
  readonly interactive: boolean;
  /** Whether a bar may be drawn on standard error: it is a terminal. */
  readonly bars: boolean;
  /** Calls back once when the person ends the program (Ctrl-C). */
  readonly onStop: (stop: () => void) => void;
  /** Today, ISO 8601, for what is dated: a printer's measured scale. */
  readonly today: () => string;
}
