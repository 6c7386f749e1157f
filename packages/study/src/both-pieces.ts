import type { Report } from '@fayplate/core';
import type { Job } from '@fayplate/job';
import type { Command, Found, MadeFile, Task } from './command.js';
import type { PieceStudy, Study } from './types.js';
import type { Options } from './options.js';
import { Refusal } from './refusal.js';
import { studyFor } from './study.js';
import { verdictBlocks, verdictJson } from './verdict-words.js';

/** Commands that answer on one plate: on a plate of two pieces they answer on each. */
const onPlate: ReadonlySet<string> = new Set(['plate', 'table', 'print', 'prove', 'packet']);

/** Prints that ask for no plate. */
const ofParts: ReadonlySet<string> = new Set(['readings', 'part', 'buy']);

/** `out/pump.pdf` of the ring → `out/ring-pump.pdf`. */
const namedFor = (piece: string, name: string): string => {
  const at = name.lastIndexOf('/') + 1;
  return `${name.slice(0, at)}${piece}-${name.slice(at)}`;
};

/** The files that a person names, each with the piece in its name; a packet's folder holds both. */
const optionsFor = (piece: string, command: string, options: Options): Options => {
  const { out, picture, step } = options;
  return {
    ...options,
    ...(out === undefined || command === 'packet' ? {} : { out: namedFor(piece, out) }),
    ...(picture === undefined ? {} : { picture: namedFor(piece, picture) }),
    ...(step === undefined ? {} : { step: namedFor(piece, step) }),
  };
};

const filesOf = (piece: string, command: string, files: readonly MadeFile[]): readonly MadeFile[] =>
  files.map((f) => ({
    ...f,
    name: command === 'packet' ? namedFor(piece, f.name) : f.name,
    says: `${piece}: ${f.says}`,
  }));

const pieceOf = (job: Job, pieces: readonly PieceStudy[], asked: string): PieceStudy => {
  const found = pieces.find((p) => p.name === asked);
  if (found === undefined)
    throw new Refusal(
      `--piece ${asked}: there is no such piece of ${job.name}; there are ${pieces.map((p) => p.name).join(' and ')}`,
    );
  return found;
};

const onPiece = (task: Task, { study }: PieceStudy): Task => ({ ...task, job: study.job, begun: study });

/** The answer on both, one after the other, the verdict on the whole before them. */
const onBoth = async (
  run: Command,
  command: string,
  task: Task,
  whole: Study,
  pieces: readonly PieceStudy[],
): Promise<Found> => {
  const { options } = task;
  if (options.out === '-' || options.picture === '-')
    throw new Refusal(
      `the plate is of two pieces: give a file name, or say which with --piece ${pieces[0]?.name ?? ''}`,
    );
  const found: { readonly name: string; readonly found: Found }[] = [];
  for (const piece of pieces)
    found.push({
      name: piece.name,
      found: await run({ ...onPiece(task, piece), options: optionsFor(piece.name, command, options) }),
    });
  if (found.some((f) => f.found.instead !== undefined))
    throw new Refusal(
      `the plate is of two pieces: give --out a file name, or say which with --piece ${pieces[0]?.name ?? ''}`,
    );
  const verdict = whole.verdict();
  return {
    exit: verdict.answer === 'yes' && found.every((f) => f.found.exit === 0) ? 0 : 1,
    json: { pieces: Object.fromEntries(found.map((f) => [f.name, f.found.json])), verdict: verdictJson(verdict) },
    report: [
      ...verdictBlocks(verdict),
      ...found.flatMap((f): Report => [
        { kind: 'heading', level: 1, text: `Piece: ${f.name}` },
        // The one verdict stands above; the verdict on each piece is a sentence.
        ...f.found.report.map((b) => (b.kind === 'verdict' ? ({ kind: 'paragraph', text: b.text } as const) : b)),
      ]),
    ],
    more: () => found.flatMap((f) => f.found.more?.() ?? []),
    files: found.flatMap((f) => filesOf(f.name, command, f.found.files ?? [])),
  };
};

/**
 * Runs a command on a job whose plate is of two pieces: on the piece that is asked for, else on both; any other command
 * as it stands.
 */
export const runOnPieces = async (run: Command, command: string, task: Task): Promise<Found> => {
  const { job, options } = task;
  const { piece } = options;
  if (job.plate?.pieces === undefined) {
    if (piece !== undefined)
      throw new Refusal('--piece: the plate of this job is of one piece; `pieces` in the plate section makes it two');
    return run(task);
  }
  if (!onPlate.has(command) || (command === 'print' && ofParts.has(options.what ?? ''))) return run(task);
  const whole = studyFor(task, command === 'packet' ? { next: true } : {});
  const pieces = whole.pieces() ?? [];
  return piece === undefined
    ? onBoth(run, command, task, whole, pieces)
    : run(onPiece(task, pieceOf(job, pieces, piece)));
};
