import { join } from 'node:path';
import { fileNameOf } from '@fayplate/core';
import type { PrinterProfile } from '@fayplate/print';
import { Refusal } from '../answer.js';
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

const isNumber = (v: unknown): v is number => typeof v === 'number' && Number.isFinite(v);
const isBand = (v: unknown): v is number => isNumber(v) && v >= 0;

/** The kept profile as written by `fayplate printer`, or null where its text is not one. */
const profileOf = (text: string): PrinterProfile | null => {
  if (text.length > 10_000) return null;
  try {
    const { profile: p } = JSON.parse(text) as { profile?: Partial<PrinterProfile> };
    if (p === undefined || !isNumber(p.wide) || !isNumber(p.high) || !isNumber(p.skew)) return null;
    const u = p.plusMinus;
    if (u === undefined || !isBand(u.wide) || !isBand(u.high) || (u.skew !== null && !isBand(u.skew))) return null;
    if (typeof p.name !== 'string' || typeof p.date !== 'string' || typeof p.paper !== 'string') return null;
    return {
      name: p.name,
      wide: p.wide,
      high: p.high,
      skew: p.skew,
      plusMinus: { wide: u.wide, high: u.high, skew: u.skew },
      date: p.date,
      paper: p.paper,
    };
  } catch {
    return null;
  }
};

export const readProfile = (io: Io, name: string | null): PrinterProfile | null => {
  if (name === null) return null;
  const path = profilePath(io, name);
  let text: string;
  try {
    text = io.read(path);
  } catch {
    throw new Refusal(
      `nothing is kept of a printer called ${name}. Print the calibration sheet, measure its rulers, then: fayplate printer ${name} --wide 149.4/150 --high 199.1/200`,
    );
  }
  const profile = profileOf(text);
  if (profile === null)
    throw new Refusal(`${path} does not hold a printer's measured scale; measure again with fayplate printer ${name}`);
  // Two names may leave the same file name.
  if (profile.name.trim().toLowerCase() !== name.trim().toLowerCase())
    throw new Refusal(
      `${path} is kept of ${profile.name}, not of ${name}; give one of the two another name and measure it again`,
    );
  return profile;
};
