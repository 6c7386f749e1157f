import { formatClock } from '@fayplate/core';
import {
  MOST,
  type PartAnswers,
  Refusal,
  type StarterAnswers,
  dialOf,
  fasteningOf,
  idsOf,
  instrumentsOf,
  jobNameOf,
  letterOf,
  middleOf,
  nameOf,
  refuseSameName,
  standingOf,
  usualCaliper,
} from '@fayplate/study';
import type { Io } from '../io.js';

/**
 * A question with the answer that an empty line gives; what cannot be understood is asked again, with what was
 * expected.
 */
type Ask = <T>(question: string, usual: string, understand: (text: string) => T) => Promise<T>;

/** The answer before was wrong: it is asked again. */
class Back extends Error {}

/** Answers already given are taken from `given` as they were typed; new ones are put there. */
const asking = (io: Io, given: string[]): Ask => {
  let asked = 0;
  return async (question, usual, understand) => {
    const before = given[asked];
    if (before !== undefined) {
      asked++;
      return understand(before);
    }
    for (;;) {
      const typed = await io.ask(`${question} [${usual}] `);
      if (typed === null) throw new Refusal('stopped before the last question: nothing was written');
      const answer = typed.trim() === '' ? usual : typed.trim();
      if (answer.toLowerCase() === 'back') {
        given.pop();
        throw new Back();
      }
      try {
        const understood = understand(answer);
        given.push(answer);
        asked++;
        return understood;
      } catch (error) {
        if (!(error instanceof Refusal)) throw error;
        io.err(`${error.message}\n`);
      }
    }
  };
};

const unitsOf = (text: string): 'in' | 'mm' => {
  const t = text.toLowerCase();
  if (/^(?:in|inch|inches|")$/.test(t)) return 'in';
  if (/^(?:mm|milli(?:metre|meter)s?|metric)$/.test(t)) return 'mm';
  throw new Refusal(`"${text.slice(0, 40)}" is not a unit: write in or mm`);
};

const countOf = (text: string): number => {
  const n = Number(text);
  if (Number.isInteger(n) && n >= 1 && n <= MOST) return n;
  throw new Refusal(`"${text.slice(0, 40)}" is not a count: write a whole number from 1 to ${MOST}`);
};

/** `n` places evenly round the clock, the first at `turn` of a division from 12. */
const evenly = (n: number, turn: number): string =>
  Array.from({ length: n }, (_, k) => formatClock(Math.PI / 2 - (2 * Math.PI * (k + turn)) / n)).join(' ');

interface Usual {
  readonly name: string;
  readonly fasteners: string;
  readonly count: number;
  readonly turn: number;
}

const askPart = async (ask: Ask, which: string, usual: Usual, taken: string | null): Promise<PartAnswers> => {
  const name = await ask(`What is the ${which} part called?`, usual.name, (t) => {
    const typed = nameOf(t);
    if (taken !== null) refuseSameName(taken, typed);
    return typed;
  });
  const middle = await ask(`What is round in the middle of ${name}: spigot, bore or none?`, 'spigot', middleOf);
  const fastening = await ask(
    `Does ${name} have studs or holes? With their thread where you know it, or alike where all are of one size: ` +
      'studs M10, holes alike.',
    usual.fasteners,
    fasteningOf,
  );
  const count = await ask(`How many ${fastening.fasteners}s?`, String(usual.count), countOf);
  const standing = await ask(
    'Roughly where on the clock, looking at the face? Where ' +
      'so, add: from behind; across and two of them, which the x ' +
      'axis runs through (12 4 8, from behind, across 12 4).',
    evenly(count, usual.turn),
    (t) => standingOf(t, count),
  );
  return { name, middle, ...fastening, ...standing };
};

/** What an answer draws, so that a wrong one is seen and taken back. */
const shown = (io: Io, part: PartAnswers, other: PartAnswers, after: string): void => {
  const names = idsOf(part, letterOf(part, other));
  io.err(
    `\n${dialOf(names, part.clocks)}\n\nThat is ${part.name} as you look at ` +
      `it${part.viewed === 'from behind' ? ' from behind' : ''}${after}.\n`,
  );
};

const form = async (io: Io, ask: Ask): Promise<StarterAnswers> => {
  const job = await ask('What is the job called?', 'Adapter plate', jobNameOf);
  const units = await ask('What does a bare number mean, in or mm?', 'in', unitsOf);
  const instruments = await ask(
    `How good is one caliper reading? What else is at hand comes after it: ${usualCaliper(units)}, ` +
      `${units === 'in' ? 'rule ± 1/64 in' : 'rule ± 0.5 mm'}.`,
    usualCaliper(units),
    (t) => instrumentsOf(t, units),
  );
  const first = await askPart(ask, 'first', { name: 'pump', fasteners: 'studs', count: 6, turn: 0 }, null);
  shown(io, first, first, '; back takes the last answer back');
  const second = await askPart(ask, 'second', { name: 'motor', fasteners: 'holes', count: 4, turn: 0.5 }, first.name);
  shown(io, second, first, '');
  return { job, units, ...instruments, parts: [first, second] };
};

/** A few questions on the terminal; an empty answer takes what stands in brackets, `back` asks the one before again. */
export const askForStarter = async (io: Io): Promise<StarterAnswers> => {
  const given: string[] = [];
  for (;;) {
    try {
      return await form(io, asking(io, given));
    } catch (error) {
      if (!(error instanceof Back)) throw error;
    }
  }
};
