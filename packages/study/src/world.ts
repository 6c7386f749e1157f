import type { Lettering } from '@fayplate/drawing';
import type { Press, Sheets } from './printing.js';
import type { Progress } from './types.js';

/** All that a study takes from outside. Each is called only when it is needed, so that an app can load it then. */
export interface World {
  /** Letters as outlines. */
  readonly lettering: () => Promise<Lettering>;
  /** Prints one template (`print`). */
  readonly sheets: () => Promise<Sheets>;
  /** Prints a packet's PDF files (`packet`); asked for first of all, so that it can get ready on another thread. */
  readonly press: () => Promise<Press>;
  /** Text of a file beside the job, such as a list of readings; null: there is none, or it may not be read. */
  readonly beside?: (name: string) => string | null;
  /** What is kept of a printer's measured scale, as `printerText` wrote it, and where; null: nothing is kept. */
  readonly printer?: (name: string) => { readonly text: string; readonly where: string } | null;
  readonly progress?: Progress;
}
