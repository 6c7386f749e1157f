import type { Command } from 'commander';
import type { Io } from '../io.js';

/** Adds one command to the program; `done` takes its exit status. */
export type AddCommand = (program: Command, io: Io, done: (status: number) => void) => void;
