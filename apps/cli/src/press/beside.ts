import { existsSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { join } from 'node:path';
import { Worker } from 'node:worker_threads';
import type { Press, PrintedFiles } from '@fayplate/print';
import { loadLettering } from '../files/fonts.js';

/** The messages to a press on another thread. */
export type PressWord =
  | { readonly kind: 'begin'; readonly order: Parameters<Press['begin']>[0] }
  | {
      readonly kind: 'finish';
      readonly sections: Parameters<Press['finish']>[0];
      readonly alone: NonNullable<Parameters<Press['finish']>[1]>;
    };

/** The press on a thread of its own, so that pages are printed while the rest of the packet is still worked out. */
export const pressBeside = (program: string): Press => {
  const worker = new Worker(program);
  const failed = new Promise<never>((_, reject) => void worker.once('error', reject));
  // It is reported to whoever waits for the packet; not before.
  failed.catch(() => null);
  const tell = (word: PressWord): void => worker.postMessage(word);
  return {
    begin: (order) => tell({ kind: 'begin', order }),
    finish: async (sections, alone = []) => {
      tell({ kind: 'finish', sections, alone });
      return Promise.race([failed, new Promise<PrintedFiles>((resolve) => void worker.once('message', resolve))]);
    },
    stop: () => void worker.terminate(),
  };
};

/** The press beside this thread where there is a second core and the built program that it runs; otherwise here. */
export const choosePress = async (): Promise<Press> => {
  const program = join(import.meta.dirname, '..', 'bin', 'press.js');
  if (availableParallelism() > 1 && existsSync(program)) return pressBeside(program);
  return (await import('@fayplate/print')).press(loadLettering);
};
