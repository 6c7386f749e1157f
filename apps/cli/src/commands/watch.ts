import { type FSWatcher, existsSync, realpathSync, watch as watchFolder } from 'node:fs';
import { basename, dirname, resolve } from 'node:path';
import type { Io } from '../io.js';
import { type AddCommand, type CommonOptions, withCommonOptions } from '../options.js';
import { told } from '../run-job.js';

/** A save is several events: wait until they have stopped for so long, ms. */
const QUIET = 80;

/**
 * Folders, not files, are watched: editors save by renaming over the file. A file that is a link is watched where it
 * lies too.
 */
const watchingFor = (changed: () => void) => {
  const names = new Map<string, Set<string>>();
  const watchers: FSWatcher[] = [];
  const one = (path: string): void => {
    const folder = dirname(path);
    const known = names.get(folder);
    if (known !== undefined) {
      known.add(basename(path));
      return;
    }
    if (!existsSync(folder)) return;
    const wanted = new Set([basename(path)]);
    names.set(folder, wanted);
    const watcher = watchFolder(folder, (_event, name) => {
      if (name !== null && wanted.has(name)) changed();
    });
    // A folder that goes away has nothing more to tell.
    watcher.on('error', () => watcher.close());
    watchers.push(watcher);
  };
  return {
    add: (path: string): void => {
      one(resolve(path));
      if (existsSync(path)) one(realpathSync(path));
    },
    close: (): void => {
      for (const w of watchers) w.close();
    },
  };
};

/** The command that runs `locate` at every save; `run` is the whole command line, as `main` has it. */
export const watchBy =
  (run: (argv: readonly string[], io: Io) => Promise<number>): AddCommand =>
  (program, io, done) => {
    withCommonOptions(program.command('watch <job>'))
      .description('solves again whenever the file is saved, and repaints; Ctrl-C ends it')
      .addHelpText('after', '\nExample:\n  fayplate watch pump.yaml')
      .action(async (path: string, options: CommonOptions) => {
        const folder = dirname(path);
        if (path === '-' || !existsSync(folder)) {
          io.err(
            'fayplate watch: ' +
              (path === '-' ? 'a file can be watched, standard input cannot' : told(`there is no folder ${folder}`)) +
              '\n',
          );
          done(2);
          return;
        }
        const flags = [
          ...(options.units === undefined ? [] : ['--units', options.units]),
          ...(options.fractions === undefined ? [] : ['--fractions', String(options.fractions)]),
          ...(options.setAside ?? []).flatMap((id) => ['--set-aside', id]),
          ...(options.json === true ? ['--json'] : []),
          ...(options.quiet === true ? ['--quiet'] : []),
          ...(options.verbose === true ? ['--verbose'] : []),
        ];
        await new Promise<void>((ended) => {
          let timer: NodeJS.Timeout | null = null;
          let painting = Promise.resolve();
          const watching = watchingFor(() => {
            if (timer !== null) clearTimeout(timer);
            timer = setTimeout(() => {
              painting = painting.then(paint);
            }, QUIET);
          });
          /** Whatever the job reads is watched with it: readings may stand in a list beside it. */
          const read = (file: string): string => {
            watching.add(file);
            return io.read(file);
          };
          const paint = async (): Promise<void> => {
            // Clear the screen and put the cursor home (ECMA-48) on a terminal only: a log keeps every answer.
            if (io.interactive) io.out('\u001b[2J\u001b[H');
            await run(['locate', path, ...flags], { ...io, read });
            if (options.quiet !== true) io.err(`Watching ${told(path)}; Ctrl-C ends it.\n`);
          };
          io.onStop(() => {
            watching.close();
            if (timer !== null) clearTimeout(timer);
            ended();
          });
          // Watched before it is first read, so that no save falls between.
          watching.add(path);
          painting = paint();
        });
        done(0);
      });
  };
