import { existsSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { join } from 'node:path';
import type { Press } from '@fayplate/print';
import { loadLettering } from '../files/fonts.js';

/** The press beside this thread where there is a second core and the built program that it runs; otherwise here. */
export const choosePress = async (): Promise<Press> => {
  const program = join(import.meta.dirname, '..', 'bin', 'press.js');
  if (availableParallelism() > 1 && existsSync(program)) return (await import('./beside.js')).pressBeside(program);
  return (await import('@fayplate/print')).press(loadLettering);
};
