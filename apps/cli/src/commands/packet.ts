import { join } from 'node:path';
import { Refusal } from '../answer.js';
import { type CommonOptions, asCount, withCommonOptions } from '../options.js';
import { runJob } from '../run-job.js';
import type { AddCommand } from './command.js';

interface Options extends CommonOptions {
  readonly out: string;
  readonly paper?: string;
  readonly printer?: string;
  readonly trials?: number;
  readonly force?: boolean;
}

export const packet: AddCommand = (program, io, done) => {
  withCommonOptions(program.command('packet <job>'))
    .description('all of it, as one packet: PDF, web page, templates, tables, files for the machine')
    .requiredOption('--out <folder>', 'the folder to write into')
    .option('--paper <paper>', 'for the templates: A4, Letter, …')
    .option('--printer <name>', 'correct the templates for this printer’s measured scale')
    .option('--trials <n>', 'trials for the odds that it goes on (5000 unless told)', asCount(100, 1_000_000))
    .option('--force', 'replace files that Fayplate did not write')
    .addHelpText('after', '\nExample:\n  fayplate packet pump.yaml --out pump-packet')
    .action(async (path: string, options: Options) => {
      done(
        await runJob('packet', path, options, io, async ({ job, speech, warn, progress }) => {
          if (options.out === '-' || options.out.trim() === '')
            throw new Refusal('a packet is many files: give --out a folder, such as . for this one');
          const press = await (await import('../press/choose.js')).choosePress();
          const [{ fittedWords, platedFaces, studyOf }, { packetFiles }] = await Promise.all([
            import('../study.js'),
            import('../packet/files.js'),
          ]);
          const study = studyOf(job, {
            setAside: options.setAside ?? [],
            warn,
            next: true,
            ...(options.trials === undefined ? {} : { trials: options.trials }),
            progress,
          });
          const made = await packetFiles(study, speech, io, press, options).finally(press.stop);
          if (!made.ok) throw new Refusal(made.faults.join('\n'));
          io.write(
            made.files.map((f) => ({ path: join(options.out, f.name), content: f.content })),
            options.force === true,
          );
          for (const w of made.warnings) warn(w);
          return {
            code: made.sound ? 0 : 1,
            json: { out: options.out, files: made.files.map((f) => f.name), ok: made.sound },
            more: fittedWords(study, platedFaces(job), speech),
            report: [
              ...made.verdicts,
              {
                kind: 'table',
                caption: `Written to ${options.out}`,
                columns: [
                  { title: 'File', align: 'left' },
                  { title: 'What it is', align: 'left' },
                ],
                rows: made.files.map((f) => [f.name, f.says]),
              },
            ],
          };
        }),
      );
    });
};
