import { type LengthUnit, parseAngle, parseLength, perUnit } from '@fayplate/core';
import type { Reading, ReadingKind } from '@fayplate/job';

/** A reading that does not agree with the rest, and what the rest say it should have been. */
export interface Misfit {
  readonly reading: Reading;
  /** The number as the job holds it, mm or radians; one coordinate of an `at`. */
  readonly value: number;
  /** What the other readings alone say it should have been. */
  readonly expected: number;
  /** Standard uncertainty of value − expected. */
  readonly sigma: number;
  /** What a reading of this kind on these features would have been; null where the job cannot say. */
  readonly wouldRead: (kind: ReadingKind, features: readonly string[]) => number | null;
  /** Every feature of the face, in the order of the job. */
  readonly features: readonly string[];
}

/** One way in which a person may have got the wrong number. */
export interface Slip {
  readonly says: string;
  /** The residual left if this is what happened, mm or radians. */
  readonly left: number;
  /** How common the slip is beside the others, a judgement: the weights of one list need not add up to 1. */
  readonly weight: number;
}

/** The number of a reading as a person wrote it, without its ±, instrument and note; null where it has none. */
export const writtenValue = (text: string): string | null => {
  const tail = /=([^=#]*)/.exec(text)?.[1];
  if (tail === undefined) return null;
  const value = tail.split(/±|\+\/-|\+-|\bby\b/)[0]?.trim() ?? '';
  return value === '' ? null : value;
};

/** True where the number was written as a fraction of an inch. */
export const isFraction = (written: string): boolean => /[/⁄½¼¾⅛⅜⅝⅞]/.test(written);

/** A written number read as the job reads it, mm or radians; null where it is no number. */
const readWritten = (written: string, reading: Reading): number | null => {
  const unit: LengthUnit | null = reading.unit;
  const read = unit === null ? parseAngle(written) : parseLength(written, perUnit(unit));
  return read.ok ? read.value : null;
};

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
