import { parseLength } from '@fayplate/core';
import { type Drill, drills } from './list.js';

/**
 * A drill as people write it: `#7`, `no 7`, `F`, `letter F`, `13/32`, `13/32 in`, `10.3 mm`, `10.3` (mm), `.201 in`. Null where
 * the tables have no such drill.
 */
export const parseDrill = (text: string): Drill | null => {
  if (text.length > 40) return null;
  const t = text.trim().replace(/\s+/g, ' ');
  const number = /^(?:#|no\.?|number) ?(\d{1,2})$/i.exec(t);
  if (number !== null) return drills().find((d) => d.name === `#${Number(number[1])}`) ?? null;
  const letter = /^(?:letter )?([a-z])$/i.exec(t);
  if (letter !== null) return drills().find((d) => d.name === letter[1]?.toUpperCase()) ?? null;
  const inches = /[/⁄½¼¾⅛⅜⅝⅞]/.test(t);
  const length = parseLength(t, inches ? 25.4 : 1);
  return length.ok ? (drills().find((d) => Math.abs(d.diameter - length.value) < 1e-6) ?? null) : null;
};
