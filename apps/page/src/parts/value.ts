import {
  type LengthUnit,
  parseAngle,
  parseAngleMeasure,
  parseLength,
  parseLengthMeasure,
  perUnit,
} from '@fayplate/core';
import { isAngle, isPlace } from './touch.js';

/**
 * What is expected where a typed number cannot be one, null where it can: told at once, since a caliper that types
 * sends its Enter before the whole job is read.
 */
export const expectedOf = (head: string, value: string, unit: LengthUnit): string | null => {
  const text = value.trim();
  if (text === '') return 'a number';
  if (isPlace(head)) return /^\([^,]+,[^)]+\)/.test(text) ? null : 'a place such as (12.5, 40)';
  const withBand = /±|\+\/?-/.test(text);
  const read = isAngle(head)
    ? withBand
      ? parseAngleMeasure(text)
      : parseAngle(text)
    : withBand
      ? parseLengthMeasure(text, unit)
      : parseLength(text, perUnit(unit));
  return read.ok ? null : read.expected;
};
