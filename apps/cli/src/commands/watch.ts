import { existsSync, watch as watchFile } from 'node:fs';
import { basename, dirname } from 'node:path';
import { type CommonOptions, withCommonOptions } from '../options.js';
import { told } from '../run-job.js';
import type { AddCommand } from './command.js';

/** A save is several events: wait until they have stopped for so long, ms. */
const QUIET = 80;

export const watch: AddCommand = (program, io, done) => {
  withCommonOptions(program.command('watch <job>'))
    .description('solves again whenever the file is saved, and repaints; Ctrl-C ends it')
    .addHelpText('after', '\nExample:\n  fayplate watch pump.yaml')
    .action(async (path: string, options: CommonOptions) => {
      const { run } = await import('../main.js');
      const folder = dirname(path);
      if (path === '-' || !existsSync(folder)) {
        io.err(`fayplate watch: ${path === '-' ? 'a file can be watched, standard input cannot' : told(`there is no folder ${folder}`)}\n`);
        done(2);
        return;
      }
      const flags = [
        ...(options.units === undefined ? [] : ['--units', options.units]),
        ...(options.fractions === undefined ? [] : ['--fractions', String(options.fractions)]),
        ...(options.setAside ?? []).flatMap((id) => ['--set-aside', id]),
        ...(options.quiet === true ? ['--quiet'] : []),
        ...(options.verbose === true ? ['--verbose'] : []),
      ];
      const paint = async (): Promise<void> => {
        // Clear the screen and put the cursor home (ECMA-48) on a terminal only: a log keeps every answer.
        if (io.interactive) io.out('\u001b[2J\u001b[H');
        await run(['locate', path, ...flags], io);
        io.err(`Watching ${told(path)}; Ctrl-C ends it.\n`);
      };
      await paint();
      await new Promise<void>((resolve) => {
        let timer: NodeJS.Timeout | null = null;
        let painting = Promise.resolve();
        // The folder is watched, not the file: editors save by renaming over it.
        const watcher = watchFile(folder, (_event, name) => {
          if (name !== basename(path)) return;
          if (timer !== null) clearTimeout(timer);
          timer = setTimeout(() => {
            painting = painting.then(paint);
          }, QUIET);
        });
        io.onStop(() => {
          watcher.close();
          if (timer !== null) clearTimeout(timer);
          resolve();
        });
      });
      done(0);
    });
};
