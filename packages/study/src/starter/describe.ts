import { type LengthUnit, parseLengthBand } from '@fayplate/core';
import { faceName } from '@fayplate/job';
import { Refusal } from '../refusal.js';
import type { PartAnswers, StarterAnswers } from './answers.js';
import { clocksOf } from './clocks.js';

/** As long as a job's name may be (packages/job/src/schema). */
const LONGEST = 200;

/** What the job is called, or a refusal in words. */
export const jobNameOf = (text: string): string => {
  const name = text.trim();
  if (name === '') throw new Refusal('the job needs a name, such as "Lift pump"');
  if (name.length > LONGEST)
    throw new Refusal(`the name of the job has ${name.length} characters; at most ${LONGEST} are allowed`);
  return name;
};

/** A part's name as it may stand in a job file, or a refusal in words. */
export const nameOf = (text: string): string => {
  const name = text.trim();
  if (!faceName.test(name))
    throw new Refusal(`"${name.slice(0, 40)}" cannot be a part's name; write ${faceName.expected}`);
  return name;
};

/** What is round in the middle of a part, or a refusal in words. */
export const middleOf = (text: string): PartAnswers['middle'] => {
  const m = text.trim().toLowerCase();
  if (m !== 'spigot' && m !== 'bore' && m !== 'none')
    throw new Refusal(`"${m.slice(0, 40)}" is not a middle: write spigot, bore or none`);
  return m;
};

/** Studs or holes, or a refusal in words. */
export const fastenersOf = (text: string): PartAnswers['fasteners'] => {
  const f = text.trim().toLowerCase().replace(/s$/, '');
  if (f !== 'stud' && f !== 'hole') throw new Refusal(`"${f.slice(0, 40)}" is not a fastener: write studs or holes`);
  return f;
};

/** The ± of a caliper reading as it is written into the job, or a refusal in words. */
export const caliperOf = (text: string, units: LengthUnit): string => {
  const band = parseLengthBand(text, units);
  if (!band.ok) throw new Refusal(`"${text.slice(0, 40)}" is not the ± of a caliper: ${band.expected}`);
  return /^\s*(?:±|\+)/.test(text) ? text.trim() : `± ${text.trim()}`;
};

/**
 * `studs`, `holes M10`, `holes alike`: what fastens the part, its thread where it is known, and whether all are of one
 * size; a refusal in words.
 */
export const fasteningOf = (text: string): Pick<PartAnswers, 'fasteners' | 'thread' | 'alike'> => {
  const [first = '', ...rest] = text.trim().split(/\s+/);
  const thread = rest.filter((w) => w.toLowerCase() !== 'alike').join(' ');
  return {
    fasteners: fastenersOf(first),
    thread: thread === '' ? null : thread,
    ...(thread.length < rest.join(' ').length ? { alike: true as const } : {}),
  };
};

/** `rule ± 1/64 in`: an instrument with its ±, as a line of the job; a refusal in words. */
export const instrumentOf = (text: string): string => {
  const [name = '', ...band] = text.split('±');
  if (name.replace(':', '').trim() === '' || band.length !== 1)
    throw new Refusal(`"${text.slice(0, 40)}" is no instrument: write its name and its ±, such as "rule ± 1/64 in"`);
  return `${name.replace(':', '').trim()}: ± ${(band[0] ?? '').trim()}`;
};

/** Where a part is looked at from, where `words` say that; else null. */
const viewedOf = (words: string): PartAnswers['viewed'] | null =>
  words === 'from behind' || words === 'from outside' ? words : null;

/** Where two clocks are given behind `across`; else null. */
const acrossOf = (words: string): readonly [string, string] | null => {
  if (!words.startsWith('across ')) return null;
  const [from = '', to = ''] = clocksOf(words.slice('across '.length), 2);
  return [from, to];
};

/**
 * `12 4 8, from behind, across 12 4`: where on the clock the fasteners are, `count` of them where that is known; then,
 * where wanted, from where the part is looked at, and the two fasteners that its x axis runs across. A refusal in words
 * where it says something else.
 */
export const standingOf = (
  text: string,
  count: number | null = null,
): Pick<PartAnswers, 'clocks' | 'viewed' | 'across'> => {
  const words = text.split(',').map((w) => w.trim().toLowerCase());
  const viewed = words.map(viewedOf).find((v) => v !== null);
  const across = words.map(acrossOf).find((a) => a !== null) ?? null;
  const clocks = clocksOf(words.filter((w) => viewedOf(w) === null && !w.startsWith('across ')).join(' '), count);
  const missing = across?.find((clock) => !clocks.includes(clock));
  if (missing !== undefined) throw new Refusal(`across names ${missing}, where no fastener stands`);
  return { clocks, across, ...(viewed === undefined || viewed === null ? {} : { viewed }) };
};

/** `± 0.002 in, rule ± 1/64 in`: the caliper's ±, then what else is at hand with its own; a refusal in words. */
export const instrumentsOf = (
  text: string,
  units: LengthUnit,
): Required<Pick<StarterAnswers, 'caliper' | 'instruments'>> => {
  const [caliper = '', ...others] = text.split(',');
  return { caliper: caliperOf(caliper, units), instruments: others.map(instrumentOf) };
};

/**
 * `pump, spigot, studs M10, 12 2 3 5, from behind` → a part: its name, what is in its middle, what fastens it and with
 * which thread, and where its fasteners are, as `standingOf` reads it.
 */
export const describePart = (text: string): PartAnswers => {
  const [name = '', middle = '', fasteners = '', ...rest] = text.split(',');
  if (rest.length === 0)
    throw new Refusal(
      `"${text.trim().slice(0, 40)}" needs commas between its four parts: name, spigot|bore|none, studs|holes, ` +
        'clocks, such as "pump, spigot, studs, 12 2 4 6"',
    );
  const standing = standingOf(rest.join(','));
  return { name: nameOf(name), middle: middleOf(middle), ...fasteningOf(fasteners), ...standing };
};

/** Two parts need two names, whatever their case. */
export const refuseSameName = (first: string, second: string): void => {
  if (first.toLowerCase() === second.toLowerCase()) throw new Refusal('give the two parts different names');
};
