import { type MachinistTable, iso6983, machinistTable, tableCsv, tableJson, tableReport } from '@fayplate/machining';
import type { Plate } from '@fayplate/plate';
import { Refusal } from '../answer.js';
import { type CommonOptions, withCommonOptions } from '../options.js';
import { runJob } from '../run-job.js';
import { studyOf } from '../study.js';
import type { AddCommand } from './command.js';

interface Options extends CommonOptions {
  readonly origin?: string;
  readonly horizontal?: readonly string[];
  readonly oneSided?: boolean;
  readonly csv?: boolean;
  readonly cnc?: boolean;
  readonly dryRun?: boolean;
  readonly out?: string;
  readonly force?: boolean;
}

const pairOf = (names: readonly string[] | undefined): readonly [string, string] | null => {
  if (names === undefined) return null;
  const [a, b, more] = names;
  if (a === undefined || b === undefined || more !== undefined) throw new Refusal('--horizontal takes two places, such as --horizontal H1 H4');
  return [a, b];
};

const programText = (plate: Plate, made: MachinistTable, name: string, dryRun: boolean): string => {
  const programs = iso6983(plate, made, { name, dryRun });
  if (!programs.ok) throw new Refusal(programs.faults.join('\n'));
  return programs.programs.map((p) => p.text).join('\n');
};

export const table: AddCommand = (program, io, done) => {
  withCommonOptions(program.command('table <job>'))
    .description('the machinist’s table: drilling coordinates, tool order, check distances')
    .option('--origin <place>', 'what X 0 Y 0 is: a face, a feature, a hole, a corner of the blank, or `middle H1 H4`')
    .option('--horizontal <places...>', 'two places: the line from the first to the second runs along +X')
    .option('--one-sided', 'come to each hole from the sides that the job’s `backlash` states')
    .option('--csv', 'comma separated values instead of words')
    .option('--cnc', 'an ISO 6983 program instead of words')
    .option('--dry-run', 'with --cnc: the whole program 2 in above the work')
    .option('--out <file>', 'with --csv or --cnc: write there instead of to standard output')
    .option('--force', 'replace a file that Fayplate did not write')
    .addHelpText('after', '\nExamples:\n  fayplate table pump.yaml --origin "lower left corner" --units mm\n  fayplate table pump.yaml --csv --out pump.csv')
    .action(async (path: string, options: Options) => {
      done(
        await runJob('table', path, options, io, async ({ job, speech }) => {
          const { plate, mated } = studyOf(job, { setAside: options.setAside ?? [] }).plate();
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
          const content = options.csv === true ? tableCsv(made.table) : options.cnc === true ? programText(plate, made.table, job.name, options.dryRun === true) : null;
          return { code: plate.ok && made.table.clear.every((c) => c.ok) ? 0 : 1, json: { ...tableJson(made.table) }, report: tableReport(made.table, speech), ...(content === null ? {} : { file: { content, out: options.out ?? null, force: options.force === true } }) };
        }),
      );
    });
};
