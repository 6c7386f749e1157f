import { parseLength, splitUnit } from '@fayplate/core';
import { paper as sheetOf } from '@fayplate/handbook';

/** Paper to print on; a roll has no height of its own: it is cut where the drawing ends. */
export interface Stock {
  readonly name: string;
  readonly width: number;
  readonly height: number | null;
}

/** PDF pages reach 14,400 points, 5080 mm, without a unit of their own (ISO 32000-1, annex C, from memory). */
export const LONGEST_PAGE = 5080;

/** `A4`, `Letter`, `ANSI D`, `210 x 297 mm`, `roll 610 mm`, `roll 24 in`; null where it is none of these. */
export const stockOf = (text: string): Stock | null => {
  const roll = /^roll\s(.{1,40})$/i.exec(text.trim());
  if (roll !== null) {
    const width = parseLength(roll[1] ?? '', splitUnit(roll[1] ?? '').factor ?? 1);
    return width.ok && width.value > 0 && width.value <= LONGEST_PAGE
      ? { name: text.trim(), width: width.value, height: null }
      : null;
  }
  const sheet = sheetOf(text);
  if (sheet === null || Math.max(sheet.width, sheet.height) > LONGEST_PAGE) return null;
  return { name: sheet.name, width: sheet.width, height: sheet.height };
};
