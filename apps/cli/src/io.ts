import type { PacketPlan } from './files/packet.js';

interface OutFile {
  readonly path: string;
  readonly content: string | Uint8Array;
}

interface PacketFile {
  readonly name: string;
  readonly content: string | Uint8Array;
}

type PacketWritten = Pick<PacketPlan, 'removed' | 'kept'>;

/** The world as a command sees it, so that tests can hand in one of their own. */
export interface Io {
  readonly out: (content: string | Uint8Array) => void;
  readonly err: (text: string) => void;
  /** Text of a file, or of standard input for `-`. Throws the file system's error. */
  readonly read: (path: string) => string;
  /** All of the files or none; `-` is standard output. Throws a refusal in words. */
  readonly write: (files: readonly OutFile[], force: boolean) => void;
  /** All of a packet's files into its folder, or none; answers with what else became of files that stood there. */
  readonly writePacket: (folder: string, files: readonly PacketFile[], force: boolean) => PacketWritten;
  /** Folder for what is kept between jobs: printers' measured scales. Throws a refusal in words where there is none. */
  readonly settings: string;
  readonly columns: number;
  readonly colour: boolean;
  readonly interactive: boolean;
  /** Whether a bar may be drawn on standard error: it is a terminal. */
  readonly bars: boolean;
  /** Asks on the terminal; null where the person ends the program instead of answering. */
  readonly ask: (question: string) => Promise<string | null>;
  /** Calls back once when the person ends the program (Ctrl-C). */
  readonly onStop: (stop: () => void) => void;
  /** Today, ISO 8601, for what is dated: a printer's measured scale. */
  readonly today: () => string;
}
