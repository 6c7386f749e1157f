import { type Doubt, type Measure, type Parsed, parseNumber, parsed, refused, slipIn, wide } from './number.js';

/** An angle in radians that runs clockwise, as clocks and clockings do; every other angle runs counter-clockwise. */
export type Clockwise = number;

/** One degree in radians. */
export const DEGREE = Math.PI / 180;
/** Radians → degrees. */
export const toDegrees = (radians: number): number => radians / DEGREE;

/** Into (−π, π]. */
export const wrapAngle = (a: number): number => {
  const t = a - 2 * Math.PI * Math.round(a / (2 * Math.PI));
  return t <= -Math.PI ? t + 2 * Math.PI : t;
};

/** Degrees and minutes, seconds too where they are written. */
const degreesMinutes = /^(\d{1,4}) ?° ?(\d{1,2}(?:\.\d{1,9})?) ?['′](?: ?(\d{1,2}(?:\.\d{1,9})?) ?["″])?$/;
const radianWord = / ?rad(?:ians?)?$/i;
const degreeWord = / ?(?:°|deg|degrees?)$/i;

/** The unit that is written behind an angle; null: none. */
const unitBehind = (text: string): 'rad' | 'deg' | null =>
  radianWord.test(text.trim()) ? 'rad' : /°|deg(?:rees?)?$/i.test(text.trim()) ? 'deg' : null;

/** `30`, `30 deg`, `30°`, `30° 15'`, `30° 15' 20"`, `0.5 rad` → radians; a bare number is degrees. */
export const parseAngle = (text: string): Parsed<number> => {
  if (text.length > 80) return refused('an angle of at most 80 characters');
  const t = text.trim();
  const sign = /^[-−]/.test(t) ? -1 : 1;
  const rest = t.replace(/^[-−+] ?/, '');
  const dms = degreesMinutes.exec(rest);
  if (dms !== null) {
    const [, d = '0', m = '0', s = '0'] = dms;
    if (Number(m) >= 60 || Number(s) >= 60) return refused('minutes and seconds below 60');
    return parsed(sign * (Number(d) + Number(m) / 60 + Number(s) / 3600) * DEGREE);
  }
  const unit = radianWord.test(rest) ? 'rad' : 'deg';
  const digits = rest.replace(unit === 'rad' ? radianWord : degreeWord, '');
  const number = parseNumber(digits);
  if (number.ok) return parsed(sign * number.value * (unit === 'rad' ? 1 : DEGREE));
  return slipIn(digits) === null && !/[/⁄]/.test(digits)
    ? refused("an angle such as 30, 30 deg, 30° 15' or 0.5 rad")
    : number;
};

/** More than a whole turn, radians: the value was meant in degrees. */
const TURN = 2 * Math.PI;

const measured = (text: string) => {
  const [head = '', tail, extra] = text.split(/±|\+\/-|\+-/);
  const [own, behind] = [unitBehind(head), tail === undefined ? null : unitBehind(tail)];
  const inRadians = parseAngle(`${head.trim()} rad`);
  const absurd = inRadians.ok && Math.abs(inRadians.value) > TURN;
  return { head, tail, extra, own, shared: own === null && behind === 'rad' && !absurd, absurd, behind };
};

/**
 * `30 ± 0.5 deg` → radians. A unit written once serves both, unless a value in radians would be more than a whole turn;
 * with none both are in degrees.
 */
export const parseAngleMeasure = (text: string): Parsed<Measure> => {
  const { head, tail, extra, own, shared } = measured(text);
  if (extra !== undefined) return refused('one ± only');
  const v = parseAngle(shared ? `${head.trim()} rad` : head);
  if (!v.ok || tail === undefined) return v.ok ? parsed({ value: v.value, plusMinus: null }) : v;
  const u = parseAngle(own === 'rad' && unitBehind(tail) === null ? `${tail.trim()} rad` : tail);
  if (!u.ok) return refused(`after the ±, ${u.expected}`);
  return u.value > 0 ? parsed({ value: v.value, plusMinus: u.value }) : refused('a ± above zero');
};

/**
 * What is doubtful about an angle and its ±: the unit that the value was taken in, or a ± larger than the value. Null:
 * nothing.
 */
export const doubtOfAngle = (text: string): Doubt | null => {
  const m = parseAngleMeasure(text);
  const { head, own, behind, absurd } = measured(text);
  if (!m.ok || m.value.plusMinus === null) return null;
  if (own === null && behind === 'rad' && absurd)
    return {
      code: 'plus-minus-unit',
      expected: `a unit on the value as well: ${head.trim()} is taken in degrees, not in the radians of the ±`,
    };
  return m.value.plusMinus > Math.abs(m.value.value) ? wide : null;
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
