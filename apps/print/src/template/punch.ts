import type { Speech } from '@fayplate/core';
import { sizeWords } from './words.js';

/** A centre or hole punch as it is sold; diameter in mm. */
export interface Punch {
  readonly name: string;
  readonly diameter: number;
}

/** A soft sheet is punched no finer than a tenth of a millimetre or a thousandth of an inch. */
export const softWords = (mm: number, speech: Speech): string => {
  const step = speech.unit === 'in' ? 0.0254 : 0.1;
  return sizeWords(Math.round(mm / step) * step, speech);
};

/** The smallest punch on hand that is no smaller than the eased hole (0.05 mm let pass) and no more than a tenth and 1 mm larger. */
export const punchFor = (diameter: number, punches: readonly Punch[]): Punch | null =>
  punches
    .filter((p) => p.diameter >= diameter - 0.05 && p.diameter <= diameter * 1.1 + 1)
    .reduce<Punch | null>((best, p) => (best === null || p.diameter < best.diameter ? p : best), null);

/** The nearest hollow punch that is sold and no smaller (0.05 mm let pass): by thirty-seconds of an inch or half millimetres (common practice). */
const soldPunch = (diameter: number, speech: Speech): string => {
  const step = speech.unit === 'in' ? 25.4 / 32 : 0.5;
  const sold = Math.ceil((diameter - 0.05) / step - 1e-9) * step;
  return `${sizeWords(sold, speech)} ${speech.unit}`;
};

export const punchWords = (diameter: number, punches: readonly Punch[] | null, speech: Speech): string => {
  const size = `⌀${softWords(diameter, speech)}`;
  if (punches === null) return `punch ${soldPunch(diameter, speech)}`;
  const punch = punchFor(diameter, punches);
  return punch === null ? `${size}: no punch fits, cut by hand` : `punch ${punch.name}`;
};
