import { parseClock } from '@fayplate/core';
import { faceName } from '@fayplate/job';
import { Refusal } from '../answer.js';
import type { PartAnswers } from './answers.js';

const clocksOf = (text: string): readonly string[] => {
  const clocks = text.split(/[,\s]+/).filter((c) => c !== '');
  for (const clock of clocks) {
    const read = parseClock(clock);
    if (!read.ok) throw new Refusal(`"${clock}" is not a place on the clock; write ${read.expected}`);
  }
  if (clocks.length === 0) throw new Refusal('say roughly where the fasteners are on the clock, such as 12,2,4:30');
  return clocks;
};

/** `pump, spigot, studs, 12 2 3 5` → a part: its name, what is in its middle, what fastens it, and where on the clock. */
export const describePart = (text: string): PartAnswers => {
  const [name = '', middle = '', fasteners = '', ...clocks] = text.split(',').map((t) => t.trim());
  if (!faceName.test(name)) throw new Refusal(`"${name.slice(0, 40)}" cannot be a part's name; write ${faceName.expected}`);
  const m = middle.toLowerCase();
  if (m !== 'spigot' && m !== 'bore' && m !== 'none') throw new Refusal(`what is in the middle of ${name}: spigot, bore or none`);
  const f = fasteners.toLowerCase().replace(/s$/, '');
  if (f !== 'stud' && f !== 'hole') throw new Refusal(`what fastens ${name}: studs or holes`);
  return { name, middle: m, fasteners: f, clocks: clocksOf(clocks.join(' ')) };
};
