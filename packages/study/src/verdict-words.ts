import { type Block, type Speech, type Verdict, forReader, sayAnswer, verdictOf } from '@fayplate/core';
import type { MachineFormat } from './formats.js';
import type { Options } from './options.js';
import type { Notice } from './printing.js';
import { type Refusal, Unmet } from './refusal.js';

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** The verdict as the block that every medium shows first. */
export const verdictBlock = (v: Verdict, speech: Pick<Speech, 'atBench'> = {}): Block => ({
  kind: 'verdict',
  ok: v.answer === 'yes',
  answer: v.answer,
  text: capital(forReader(v.because, v.becauseAtBench, speech)),
});

/** The verdict, and before it what of the readings is not settled where something is made from them. */
export const verdictBlocks = (
  v: Verdict,
  unsettled: string | null = null,
  speech: Pick<Speech, 'atBench'> = {},
): readonly Block[] => [
  verdictBlock(v, speech),
  ...(unsettled === null
    ? []
    : [{ kind: 'paragraph' as const, text: `${unsettled}. Everything below depends on it.` }]),
];

/**
 * What is said where there is no answer: the verdict, where no plate can be drawn though the file is sound.
 */
export const refusalWords = (refused: Refusal): string => {
  if (!(refused instanceof Unmet)) return refused.message;
  const { answer, because } = verdictOf(refused.requirements, '');
  return `${sayAnswer(answer)}: ${capital(because)}`;
};

/**
 * The whole job's verdict at the end of a command that answers a question of its own; nothing where the job has no
 * plate yet.
 */
export const wholeJob = (v: Verdict | null): readonly Block[] =>
  v === null ? [] : [{ kind: 'heading', level: 2, text: 'The whole job' }, verdictBlock(v)];

/** A room's own judgement as a plain sentence: a job has one verdict only. */
export const asParagraph = (b: Block): Block => (b.kind === 'verdict' ? { kind: 'paragraph', text: b.text } : b);

export const noticeOf = (v: Verdict, unsettled: string | null): Notice => ({ line: verdictLine(v), across: unsettled });

/**
 * Why a file that a machine is run by is not made: its readings are not settled, and nobody asked for it all the same;
 * else null.
 */
export const withheld = (format: MachineFormat, notice: Notice | undefined, options: Options): string | null =>
  format.flag === 'csv' || notice?.across == null || options.unsettled === true
    ? null
    : `${notice.across}. No ${format.flag === 'cnc' ? 'program' : 'solid'} is made from it; settle it first, or ask ` +
      'for it with --unsettled: it then begins with a stop';

/** The verdict in one line, for the head of a sheet, a table or a program: what goes to the bench. */
export const verdictLine = (v: Verdict): string => `${sayAnswer(v.answer)}: ${v.becauseAtBench}`;

/**
 * `verdict` of a command's document: the answer, what it rests on, and every requirement that fails or is not known.
 */
export const verdictJson = (v: Verdict | null) =>
  v === null
    ? null
    : {
        answer: v.answer,
        because: v.because,
        first: v.first?.id ?? null,
        requirements: v.requirements,
      };
