import { parseClock } from '@fayplate/core';
import { Refusal } from '../refusal.js';

/** More than any flange has; the order of the readings is worked out for every pair of them. */
export const MOST = 40;

const HOURS = [
  'twelve',
  'one',
  'two',
  'three',
  'four',
  'five',
  'six',
  'seven',
  'eight',
  'nine',
  'ten',
  'eleven',
] as const;
const MINUTES: ReadonlyMap<string, number> = new Map([
  ['half', 30],
  ['quarter', 15],
  ['five', 5],
  ['ten', 10],
  ['twenty', 20],
]);
const isPast = (word: string | undefined): boolean => word === 'past' || word === 'after';
const isTo = (word: string | undefined): boolean => word === 'to' || word === 'before';

/** An hour in words or digits, as a number from 0 to 11; null where it is none. */
const hourOf = (word: string | undefined): number | null => {
  const named = HOURS.findIndex((h) => h === word);
  if (named >= 0) return named;
  const read = word === undefined || word.includes(':') ? null : parseClock(word);
  return read !== null && read.ok ? Number(word) % 12 : null;
};

const written = (hour: number, minutes: number): string => {
  const h = ((hour + 11) % 12) + 1;
  return minutes === 0 ? String(h) : `${h}:${String(minutes).padStart(2, '0')}`;
};

/** `9.30` is half past nine, and so is `9.5`. */
const pointed = (word: string): string => {
  const [hour = '', minutes = '', more] = word.split('.');
  if (minutes === '' || more !== undefined) return word;
  return minutes === '5' ? `${hour}:30` : `${hour}:${minutes}`;
};

/**
 * Clocks as people type them, each as a job has it: `"9:30"`, `9.30`, `half past nine`, `quarter to 4`, `three
 * o'clock`.
 */
const clockWords = (text: string): readonly string[] => {
  const words = text
    .toLowerCase()
    .replaceAll(/["'`’“”]/g, '')
    .split(/[,;\s]+/)
    .filter((w) => w !== '' && w !== 'oclock' && w !== 'and');
  const clocks: string[] = [];
  for (let i = 0; i < words.length; i++) {
    const [word = '', link, next] = words.slice(i, i + 3);
    const minutes = MINUTES.get(word) ?? (Number.isInteger(Number(word)) ? Number(word) : null);
    const hour = hourOf(next);
    if (minutes !== null && hour !== null && minutes < 60 && (isPast(link) || isTo(link))) {
      clocks.push(isPast(link) ? written(hour, minutes) : written(hour + 11, 60 - minutes));
      i += 2;
      continue;
    }
    const named = HOURS.findIndex((h) => h === word);
    clocks.push(named >= 0 ? written(named, 0) : pointed(word));
  }
  return clocks;
};

/**
 * `12 2 4:30`, or in words: at least one, as many as `count` where that is given; a refusal in words where it is none.
 */
export const clocksOf = (text: string, count: number | null = null): readonly string[] => {
  const clocks = clockWords(text);
  for (const clock of clocks) {
    const read = parseClock(clock);
    if (!read.ok)
      throw new Refusal(
        `"${clock.slice(0, 40)}" is not a place on the clock; write ${read.expected}, or half past nine`,
      );
  }
  if (clocks.length === 0) throw new Refusal('say roughly where the fasteners are on the clock, such as 12 2 4:30');
  if (clocks.length > MOST) throw new Refusal(`at most ${MOST} fasteners`);
  if (count !== null && clocks.length !== count)
    throw new Refusal(`${count} places are needed, and ${clocks.length} are given`);
  return clocks;
};

/** The dial is so many letters wide and so many lines high on either side of its middle. */
const DIAL = { wide: 14, high: 5 } as const;

/** What the answers draw: each fastener by its name at its place on the clock, the middle as +. */
export const dialOf = (names: readonly string[], clocks: readonly string[]): string => {
  const rows = Array.from({ length: 2 * DIAL.high + 1 }, () => Array.from({ length: 2 * DIAL.wide + 6 }, () => ' '));
  const put = (text: string, x: number, y: number): void => {
    const row = rows[DIAL.high - Math.round(y * DIAL.high)];
    const from = DIAL.wide + Math.round(x * DIAL.wide);
    for (const [k, letter] of [...text].entries()) if (row !== undefined) row[from + k] = letter;
  };
  put('+', 0, 0);
  for (const [i, clock] of clocks.entries()) {
    const read = parseClock(clock);
    if (read.ok) put(names[i] ?? '', Math.cos(read.value), Math.sin(read.value));
  }
  return rows.map((row) => `  ${row.join('')}`.trimEnd()).join('\n');
};
