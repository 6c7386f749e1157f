import type { PacketSection } from '@fayplate/print';
import type { PrintOrder, PrintedFiles } from './prints.js';

/** Prints the packet's PDF files in the order in which there is something to print. */
export interface Press {
  /** The templates need the plate alone: they are begun as soon as there is one. */
  readonly begin: (order: PrintOrder) => void;
  /** The packet, once all is said that goes into it; faults in words. */
  readonly finish: (sections: readonly PacketSection[]) => Promise<PrintedFiles>;
  readonly stop: () => void;
}
