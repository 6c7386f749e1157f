import { type Speech, say } from '@fayplate/core';
import type { PrinterProfile } from '../printer/profile.js';
import type { Remaining } from '../printer/remaining.js';

const factor = (v: number): string => v.toFixed(4);
const degrees = (v: number): string => `${((v * 180) / Math.PI).toFixed(3)}°`.replace('-', '−');

/** What was done about the printer's scale, short enough for the strip on each sheet. */
export const scaleBrief = (profile: PrinterProfile | null): string =>
  profile === null
    ? 'True scale, not corrected for any printer'
    : `Corrected for ${profile.name}: ${factor(profile.wide)} wide, ${factor(profile.high)} high${profile.skew === 0 ? '' : `, skew ${degrees(profile.skew)}`}`;

/** The same in full, with the day on which the printer was measured. */
export const scaleWords = (profile: PrinterProfile | null): string =>
  profile === null
    ? 'True scale, not corrected for any printer'
    : `Corrected for ${profile.name}: it prints ${factor(profile.wide)} wide, ${factor(profile.high)} high, skew ${degrees(profile.skew)} (measured ${profile.date} on ${profile.paper})`;

/** How far the farthest hole can still be off, as a sentence. */
export const remainingWords = (remaining: Remaining, profile: PrinterProfile | null, speech: Speech): string => {
  const places = speech.unit === 'in' ? 3 : 2;
  const off = say(remaining.off, { ...speech, fraction: null }, places);
  const hole = remaining.hole === null ? 'a hole' : `hole ${remaining.hole}`;
  return profile === null
    ? `Once the rulers read true within a quarter of a millimetre, ${hole}, the farthest, can still be off by ± ${off}.`
    : `After this correction ${hole}, the farthest, can still be off by ± ${off}, from the ± of the rulers that were measured.`;
};
