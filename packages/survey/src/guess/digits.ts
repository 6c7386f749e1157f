import type { Misfit, Slip } from './slip.js';
import { isFraction, readWritten, writtenValue } from './written.js';

/** Every text with two neighbouring, different digits exchanged; a decimal point between them stays where it is. */
export const exchanges = (text: string): readonly string[] => {
  const places = [...text.matchAll(/\d/g)].map((m) => m.index);
  const out: string[] = [];
  for (const [k, i] of places.entries()) {
    const j = places[k + 1];
    if (j === undefined || (j !== i + 1 && text.slice(i + 1, j) !== '.') || text[i] === text[j]) continue;
    out.push(`${text.slice(0, i)}${text[j]}${text.slice(i + 1, j)}${text[i]}${text.slice(j + 1)}`);
  }
  return out;
};

/** Rules are divided into halves of halves: 17/32 may be written for 13/32, never 71/32 or 17/23. */
const isOnARule = (text: string): boolean => {
  const m = /(\d{1,9}) ?[/⁄] ?(\d{1,9})/.exec(text);
  if (m === null) return true;
  const [over, under] = [Number(m[1]), Number(m[2])];
  return over < under && under <= 64 && Number.isInteger(Math.log2(under));
};

/** Two neighbouring digits written the wrong way round. */
export const swappedDigits = (misfit: Misfit): readonly Slip[] => {
  const written = writtenValue(misfit.reading.text);
  if (written === null || misfit.reading.point !== null) return [];
  return exchanges(written).flatMap((text): Slip[] => {
    const meant = readWritten(text, misfit.reading);
    if (meant === null || (isFraction(text) && !isOnARule(text))) return [];
    return [{ says: `digits swapped: ${text} meant`, left: meant - misfit.expected, weight: 2 }];
  });
};
