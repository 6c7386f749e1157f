import type { Report, Speech } from '@fayplate/core';
import type { Fault, Job } from '@fayplate/job';
import type { Options } from './options.js';
import type { Study } from './types.js';
import type { World } from './world.js';

/** A file that was made, not yet written anywhere. */
export interface MadeFile {
  /** As the person named it, or what it is called in a packet; `-`: standard output. */
  readonly name: string;
  /** What it is, in a few words. */
  readonly says: string;
  readonly content: string | Uint8Array;
}

/** What a command works on. */
export interface Task {
  readonly job: Job;
  readonly options: Options;
  /** Where the job is one piece of a plate of two: its study, begun with that of the whole. */
  readonly begun?: Study;
  readonly speech: Speech;
  /** Faults of the file that do not stop the work. */
  readonly unlikely: readonly Fault[];
  /** Says something beside the answer. */
  readonly warn: (words: string) => void;
  readonly world: World;
}

/**
 * What a command finds: the exit status (0 sound, 1 the answer is no), the answer for a program and for a person, the
 * files.
 */
export interface Found {
  readonly exit: 0 | 1;
  readonly json: object;
  readonly report: Report;
  /** What `--verbose` adds. */
  readonly more?: () => Report;
  readonly files?: readonly MadeFile[];
  /** A text asked for in place of words. */
  readonly instead?: string;
}

/** Works one command out. Throws a `Refusal` in words; anything else that it throws is a fault of ours. */
export type Command = (task: Task) => Promise<Found>;
