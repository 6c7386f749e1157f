import { Refusal } from '../answer.js';
import { savePictures } from '../files/pictures.js';
import { type CommonOptions, withCommonOptions } from '../options.js';
import { runJob } from '../run-job.js';
import type { ContentOptions } from '../table-files.js';
import type { AddCommand } from './command.js';

interface Options extends CommonOptions, ContentOptions {
  readonly origin?: string;
  readonly horizontal?: readonly string[];
  readonly oneSided?: boolean;
  readonly step?: string;
  readonly picture?: string;
}

const pairOf = (names: readonly string[] | undefined): readonly [string, string] | null => {
  if (names === undefined) return null;
  const [a, b, more] = names;
  if (a === undefined || b === undefined || more !== undefined)
    throw new Refusal('--horizontal takes two places, such as --horizontal H1 H4');
  return [a, b];
};

export const table: AddCommand = (program, io, done) => {
  withCommonOptions(program.command('table <job>'))
    .description('the machinist’s table: drilling coordinates, tool order, check distances')
    .option('--origin <place>', 'what X 0 Y 0 is: a face, a feature, a hole, a corner of the blank, or `middle H1 H4`')
    .option('--horizontal <places...>', 'two places: the line from the first to the second runs along +X')
    .option('--one-sided', 'come to each hole from the sides that the job’s `backlash` states')
    .option('--csv', 'comma separated values instead of words')
    .option('--cnc', 'an ISO 6983 program instead of words, one for each side that is cut')
    .option('--dry-run', 'with --cnc: the whole program 2 in above the work, spindle stopped')
    .option(
      '--g20-g21',
      'with --cnc: state the unit as most milling controls want it, in place of the standard’s G70 and G71',
    )
    .option(
      '--out <file>',
      'with --csv or --cnc: write there instead of to standard output (programs of two sides: -side-a, -side-b)',
    )
    .option('--step <file>', 'write the plate as a solid, ISO 10303-21')
    .option('--picture <file.svg>', 'draw the plate as it lies on the machine, one for each side that is cut')
    .option('--force', 'replace a file that Fayplate did not write')
    .addHelpText(
      'after',
      '\nExamples:\n  fayplate table pump.yaml --origin "lower left corner" --units mm\n  fayplate table pump.yaml --csv --out pump.csv',
    )
    .action(async (path: string, options: Options) => {
      done(
        await runJob('table', path, options, io, async ({ job, speech, warn, progress }) => {
          const [
            { fittedWords, platedFaces, studyOf },
            { doubtsOf },
            { machinistTable, tableJson, tableReport },
            { saveSolid, tableContent },
          ] = await Promise.all([
            import('../study.js'),
            import('../doubts.js'),
            import('@fayplate/machining'),
            import('../table-files.js'),
          ]);
          const study = studyOf(job, { setAside: options.setAside ?? [], warn, progress });
          const { plate, mated } = study.plate();
          const doubts = doubtsOf(study);
          const made = machinistTable(
            plate,
            job,
            {
              origin: options.origin ?? null,
              horizontal: pairOf(options.horizontal),
              unit: speech.unit,
              oneSided: options.oneSided === true,
            },
            mated,
          );
          if (!made.ok) throw new Refusal(made.faults.join('\n'));
          const { table: placed } = made;
          const force = options.force === true;
          if (options.step !== undefined) saveSolid(plate, job.name, options.step, io, force);
          if (options.picture !== undefined) {
            await savePictures(
              io,
              options.picture,
              (draw, letters) =>
                placed.setups.map(({ side }) => ({
                  name: `side-${side}`,
                  drawing: draw.settingPicture(plate, placed, side, letters),
                })),
              force,
            );
          }
          const content = tableContent(plate, placed, job.name, options, io);
          return {
            code: plate.ok && doubts.ok && placed.clear.every((c) => c.ok) ? 0 : 1,
            json: { ...tableJson(placed), suspects: doubts.suspects },
            report: [...doubts.report, ...tableReport(placed, speech)],
            more: fittedWords(study, platedFaces(job), speech),
            ...(content === null ? {} : { file: { content, out: options.out ?? null, force } }),
          };
        }),
      );
    });
};
