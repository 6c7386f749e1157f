import { createInterface } from 'node:readline/promises';
import { Refusal } from '../answer.js';
import { type StarterAnswers, usualCaliper } from './answers.js';
import { describePart } from './describe.js';

type Ask = (question: string, usual: string) => Promise<string>;

/** Asks until the answer can be understood, saying what was expected. */
const until = async <T>(ask: Ask, err: (t: string) => void, question: string, usual: string, understand: (text: string) => T): Promise<T> => {
  for (;;) {
    const text = await ask(question, usual);
    try {
      return understand(text);
    } catch (error) {
      if (!(error instanceof Refusal)) throw error;
      err(`${error.message}\n`);
    }
  }
};

const unitsOf = (text: string): 'in' | 'mm' => {
  const t = text.trim().toLowerCase();
  if (t === 'in' || t === 'mm') return t;
  throw new Refusal('in or mm');
};

/** A few questions on the terminal; an empty answer takes what stands in brackets. */
export const askForStarter = async (err: (text: string) => void): Promise<StarterAnswers> => {
  const lines = createInterface({ input: process.stdin, output: process.stderr });
  const ask: Ask = async (question, usual) => (await lines.question(`${question} [${usual}] `)).trim() || usual;
  try {
    const job = await ask('What is the job called?', 'Adapter plate');
    const units = await until(ask, err, 'What does a bare number mean, in or mm?', 'in', unitsOf);
    const caliper = await ask('How good is one caliper reading?', usualCaliper(units));
    const part = (question: string, usual: string) => until(ask, err, question, usual, describePart);
    const first = await part('The first part: name, spigot|bore|none in its middle, studs|holes, where on the clock?', 'pump, spigot, studs, 12 2 4 6 8 10');
    const second = await part('The second part, in the same way?', 'motor, spigot, holes, 1:30 4:30 7:30 10:30');
    return { job, units, caliper, parts: [first, second] };
  } finally {
    lines.close();
  }
};
