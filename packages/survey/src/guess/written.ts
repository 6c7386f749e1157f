import { type LengthUnit, parseAngle, parseLength, perUnit } from '@fayplate/core';
import type { Reading } from '@fayplate/job';

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
export const readWritten = (written: string, reading: Reading): number | null => {
  const unit: LengthUnit | null = reading.unit;
  const read = unit === null ? parseAngle(written) : parseLength(written, perUnit(unit));
  return read.ok ? read.value : null;
};
