import type { Source } from '../source.js';
import type { FormName } from './forms.js';

export type ThreadSeries = 'UNC' | 'UNF' | 'UNS' | 'metric coarse' | 'metric fine' | 'BSW' | 'BSF' | 'BA';

/** A thread of the tables; lengths mm, angle radians. Diameters are the basic ones, before any tolerance. */
export interface Thread {
  /** As the trade writes it: `3/8-16 UNC`, `#10-24 UNC`, `M10`, `M10x1.25`, `5/16 BSF`, `2 BA`. */
  readonly name: string;
  /** The size alone: `3/8`, `#10`, `M10`, `2 BA`. */
  readonly size: string;
  readonly series: ThreadSeries;
  readonly form: FormName;
  readonly major: number;
  readonly pitch: number;
  /** Threads to the inch as written; null for a thread that is named by its pitch. */
  readonly tpi: number | null;
  /** Included angle of the flanks. */
  readonly angle: number;
  /** Of the external thread, on one side. */
  readonly depth: number;
  /** Effective diameter. */
  readonly pitchDiameter: number;
  /** Of the internal thread: what is left open between its crests. */
  readonly minor: number;
  readonly source: Source;
}
