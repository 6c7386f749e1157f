import { join } from 'node:path';
import { fileNameOf } from '@fayplate/core';
import type { Io } from '../io.js';

/** Short and alike on every machine (FNV-1a, 32 bits, from memory): it only keeps two names apart. */
const tag = (text: string): string =>
  (Buffer.from(text).reduce((h, byte) => Math.imul(h ^ byte, 16_777_619), 2_166_136_261) >>> 0).toString(36);

/**
 * A printer's measured scale lies in the user's settings folder, one small file a printer. A name that a file cannot bear whole (in another
 * script, with other marks) gets a tag, so that no printer's scale replaces another's.
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
