import { join } from 'node:path';
import { fileNameOf } from '@fayplate/core';
import type { Io } from '../io.js';
import { tag } from './swap.js';

/**
 * A printer's measured scale lies in the user's settings folder, one small file a printer. A name that a file cannot
 * bear whole (in another script, with other marks) gets a tag, so that no printer's scale replaces another's.
 */
export const profilePath = (io: Io, name: string): string => {
  const whole = name.trim().normalize('NFC').toLowerCase();
  const plain = fileNameOf(name);
  return join(io.settings, 'printers', `${plain === whole ? plain : `${plain}-${tag(whole)}`}.json`);
};

/** What is kept of a printer, and where; null: nothing is kept. */
export const keptPrinter =
  (io: Io) =>
  (name: string): { readonly text: string; readonly where: string } | null => {
    const where = profilePath(io, name);
    try {
      return { text: io.read(where), where };
    } catch {
      return null;
    }
  };
