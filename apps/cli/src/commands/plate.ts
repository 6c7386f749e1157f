import { savePictures } from '../files/pictures.js';
import { type CommonOptions, asCount, withCommonOptions } from '../options.js';
import { runJob } from '../run-job.js';
import type { AddCommand } from './command.js';

interface Options extends CommonOptions {
  readonly picture?: string;
  readonly force?: boolean;
  readonly trials?: number;
}

export const plate: AddCommand = (program, io, done) => {
  withCommonOptions(program.command('plate <job>'))
    .description('the plate: holes, treatments, outline, and every check with its value, limit and source')
    .option('--trials <n>', 'trials for the odds that it goes on (5000 unless told)', asCount(100, 1_000_000))
    .option('--picture <file.svg>', 'draw the plate from both sides and in section')
    .option('--force', 'replace a file that Fayplate did not write')
    .addHelpText(
      'after',
      '\nExamples:\n  fayplate plate pump.yaml\n  fayplate plate pump.yaml --trials 100000 --picture plate.svg',
    )
    .action(async (path: string, options: Options) => {
      done(
        await runJob('plate', path, options, io, async ({ job, speech, warn, progress }) => {
          const [{ fittedWords, platedFaces, studyOf }, { doubtsOf }, { plateJson, plateReport }] = await Promise.all([
            import('../study.js'),
            import('../doubts.js'),
            import('@fayplate/plate'),
          ]);
          const study = studyOf(job, {
            setAside: options.setAside ?? [],
            warn,
            ...(options.trials === undefined ? {} : { trials: options.trials }),
            progress,
          });
          const { plate: made, mated } = study.plate();
          if (options.picture !== undefined) {
            await savePictures(
              io,
              options.picture,
              (draw, letters) => [
                { name: 'side-A', drawing: draw.platePicture(made, mated, 'A', speech, letters) },
                { name: 'side-B', drawing: draw.platePicture(made, mated, 'B', speech, letters) },
                { name: 'section', drawing: draw.sectionPicture(made, speech, letters) },
                { name: 'clocking', drawing: draw.clockingPicture(made, speech, letters) },
              ],
              options.force === true,
            );
          }
          const doubts = doubtsOf(study);
          return {
            code: made.ok && doubts.ok ? 0 : 1,
            json: { ...plateJson(made), suspects: doubts.suspects },
            report: [...doubts.report, ...plateReport(made, speech, options.verbose === true)],
            more: fittedWords(study, platedFaces(job), speech),
          };
        }),
      );
    });
};
