import { Command, CommanderError } from 'commander';
import { completions } from './commands/completions.js';
import { afterDrilling, beforeDrilling } from './commands/jobs.js';
import { look } from './commands/look.js';
import { newJob } from './commands/new.js';
import { page } from './commands/page.js';
import { printer } from './commands/printer.js';
import { watchBy } from './commands/watch.js';
import type { Io } from './io.js';
import type { AddCommand } from './options.js';
import { wrap } from './terminal/table.js';

/** In the order of the work. */
const commands: readonly AddCommand[] = [
  newJob,
  ...beforeDrilling,
  printer,
  ...afterDrilling,
  page,
  look,
  watchBy((argv, io) => run(argv, io)),
  completions,
];

const version = '0.1.0';

const fault = (io: Io, error: unknown, verbose: boolean): number => {
  const words = error instanceof Error ? error.message : String(error);
  io.err(
    `fayplate: a fault of Fayplate itself: ${words}\nYour files are as they were. Please keep the job file and report it.\n`,
  );
  if (verbose && error instanceof Error) io.err(`${error.stack ?? ''}\n`);
  return 3;
};

/**
 * Runs one command line and answers with the exit status: 0 sound, 1 the answer is 'no', 2 the input is at fault, 3 the
 * program is.
 */
export const run = async (argv: readonly string[], io: Io): Promise<number> => {
  let code = 0;
  const width = (): number => Math.min(io.columns, 100);
  const program = new Command('fayplate')
    .description('From readings off two parts that do not match to the plate that joins them.')
    .version(version, '--version')
    .helpOption('-h, --help', 'this page')
    .helpCommand('help [command]', 'this page, or that of a command')
    .showHelpAfterError('(add --help to see what it takes)')
    .exitOverride()
    .configureHelp({ minWidthToWrap: 20 })
    .configureOutput({ writeOut: io.out, writeErr: io.err, getOutHelpWidth: width, getErrHelpWidth: width })
    .addHelpText(
      'after',
      () => `
Examples, in the order of the work:
  fayplate new pump.yaml                a job to fill in, and what to read
  fayplate check pump.yaml              what is still missing
  fayplate locate pump.yaml             where the centres are, and their ±
  fayplate plate pump.yaml              the plate with every check
  fayplate packet pump.yaml --out pump  all of it, to print and to drill from

${wrap('A file named - is standard input or output. Exit status: 0 done and sound · 1 done, and the answer is no · 2 the input is at fault · 3 the program is at fault.', width()).join('\n')}`,
    );
  for (const add of commands) {
    add(program, io, (status) => {
      code = status;
    });
  }
  for (const command of program.commands) {
    command
      .exitOverride()
      .helpOption('-h, --help', 'this page')
      .configureHelp(program.configureHelp())
      .configureOutput(program.configureOutput());
  }
  try {
    await program.parseAsync([...argv], { from: 'user' });
  } catch (error) {
    if (error instanceof CommanderError) return error.exitCode === 0 ? 0 : 2;
    return fault(io, error, argv.includes('--verbose'));
  }
  return code;
};
