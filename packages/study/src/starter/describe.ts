import { type LengthUnit, parseClock, parseLengthBand } from '@fayplate/core';
import { faceName } from '@fayplate/job';
import { Refusal } from '../refusal.js';
import type { PartAnswers } from './answers.js';

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

/** `12 2 4:30`: at least one, as many as `count` where that is told. */
export const clocksOf = (text: string, count: number | null = null): readonly string[] => {
  const clocks = text.split(/[,\s]+/).filter((c) => c !== '');
  for (const clock of clocks) {
    const read = parseClock(clock);
    if (!read.ok) throw new Refusal(`"${clock.slice(0, 40)}" is not a place on the clock; write ${read.expected}`);
  }
  if (clocks.length === 0) throw new Refusal('say roughly where the fasteners are on the clock, such as 12 2 4:30');
  if (clocks.length > MOST) throw new Refusal(`at most ${MOST} fasteners`);
  if (count !== null && clocks.length !== count)
    throw new Refusal(`${count} places are needed, and ${clocks.length} are given`);
  return clocks;
};

/** More than any flange has; the order of the readings is worked out for every pair of them. */
export const MOST = 40;

/** The ± of a caliper reading as it is written into the job, or a refusal in words. */
export const caliperOf = (text: string, units: LengthUnit): string => {
  const band = parseLengthBand(text, units);
  if (!band.ok) throw new Refusal(`"${text.slice(0, 40)}" is not the ± of a caliper: ${band.expected}`);
  return /^\s*(?:±|\+)/.test(text) ? text.trim() : `± ${text.trim()}`;
};

/** `pump, spigot, studs, 12 2 3 5` → a part: its name, what is in its middle, what fastens it, and where on the clock. */
export const describePart = (text: string): PartAnswers => {
  const [name = '', middle = '', fasteners = '', ...clocks] = text.split(',');
  if (clocks.length === 0)
    throw new Refusal(
      `"${text.trim().slice(0, 40)}" needs commas between its four parts: name, spigot|bore|none, studs|holes, clocks, such as "pump, spigot, studs, 12 2 4 6"`,
    );
  return {
    name: nameOf(name),
    middle: middleOf(middle),
    fasteners: fastenersOf(fasteners),
    clocks: clocksOf(clocks.join(' ')),
  };
};

/** Two parts need two names, whatever their case. */
export const refuseSameName = (first: string, second: string): void => {
  if (first.toLowerCase() === second.toLowerCase()) throw new Refusal('give the two parts different names');
};
