import { parseNumber } from './number.js';
import { type Measure, type Parsed, parsed, refused } from './quantity.js';

/** One degree in radians. */
export const DEGREE = Math.PI / 180;
/** Radians → degrees. */
export const toDegrees = (radians: number): number => radians / DEGREE;

/** Into (−π, π]. */
export const wrapAngle = (a: number): number => {
  const t = a - 2 * Math.PI * Math.round(a / (2 * Math.PI));
  return t <= -Math.PI ? t + 2 * Math.PI : t;
};

/** `30`, `30 deg`, `30°`, `30° 15'`, `30° 15' 20"`, `0.5 rad` → radians; a bare number is degrees. */
export const parseAngle = (text: string): Parsed<number> => {
  if (text.length > 80) return refused('an angle of at most 80 characters');
  const t = text.trim();
  const sign = /^[-−]/.test(t) ? -1 : 1;
  const rest = t.replace(/^[-−+] ?/, '');
  const dms = /^(\d{1,4}) ?° ?(\d{1,2}(?:\.\d{1,9})?) ?['′](?: ?(\d{1,2}(?:\.\d{1,9})?) ?["″])?$/.exec(rest);
  if (dms !== null) {
    const [, d = '0', m = '0', s = '0'] = dms;
    if (Number(m) >= 60 || Number(s) >= 60) return refused('minutes and seconds below 60');
    return parsed(sign * (Number(d) + Number(m) / 60 + Number(s) / 3600) * DEGREE);
  }
  const radians = / ?rad(?:ians?)?$/i.exec(rest);
  const number = parseNumber(
    radians === null ? rest.replace(/ ?(?:°|deg|degrees?)$/i, '') : rest.slice(0, radians.index),
  );
  if (!number.ok) return refused("an angle such as 30, 30 deg, 30° 15' or 0.5 rad");
  return parsed(sign * number.value * (radians === null ? DEGREE : 1));
};

/** `30 ± 0.5 deg` → radians; the ± in degrees unless it says otherwise. */
export const parseAngleMeasure = (text: string): Parsed<Measure> => {
  const [head = '', tail, extra] = text.split(/±|\+\/-|\+-/);
  if (extra !== undefined) return refused('one ± only');
  const unitless = /^[-−+]?[\d./ ⁄½¼¾⅛⅜⅝⅞]+$/.test(head.trim());
  const shared = tail !== undefined && unitless && /rad(?:ians?)?\s*$/i.test(tail) ? `${head.trim()} rad` : head;
  const v = parseAngle(shared);
  if (!v.ok || tail === undefined) return v.ok ? parsed({ value: v.value, plusMinus: null }) : v;
  const inRadians = /rad(?:ians?)?\s*$/i.test(head) && /^[\d./ ]+$/.test(tail.trim());
  const u = parseAngle(inRadians ? `${tail.trim()} rad` : tail);
  if (!u.ok) return u;
  return u.value > 0 ? parsed({ value: v.value, plusMinus: u.value }) : refused('a ± above zero');
};

/**
 * A clock position, `12`, `2`, `"9:30"` → the direction in radians counter-clockwise from +x, in (−π, π]:
 * 12 is up (+y), an hour is 30° clockwise as viewed.
 */
export const parseClock = (text: string): Parsed<number> => {
  const m = /^(\d{1,2})(?::([0-5]\d))?$/.exec(text.trim());
  const hours = Number(m?.[1]);
  if (m === null || hours > 12) return refused('a clock position from 12 round to 11:59, such as 2 or "9:30"');
  return parsed(headingOfClock(hours + Number(m[2] ?? 0) / 60));
};

/** Clock hours → direction counter-clockwise from +x, radians. */
export const headingOfClock = (hours: number): number => wrapAngle(Math.PI / 2 - (hours * Math.PI) / 6);

/** Direction → clock hours in [0, 12). */
export const clockOfHeading = (angle: number): number => {
  const h = ((Math.PI / 2 - angle) * 6) / Math.PI;
  return ((h % 12) + 12) % 12;
};

/** `9:30`, to the minute; twelve is written 12. */
export const formatClock = (angle: number): string => {
  const minutes = Math.round(clockOfHeading(angle) * 60) % 720;
  const h = Math.floor(minutes / 60);
  const m = minutes % 60;
  const hour = h === 0 ? 12 : h;
  return m === 0 ? String(hour) : `${hour}:${String(m).padStart(2, '0')}`;
};
