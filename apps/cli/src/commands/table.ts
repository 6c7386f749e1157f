import { type MachinistTable, type Program, iso6983, machinistTable, stepSolid, tableCsv, tableJson, tableReport } from '@fayplate/machining';
import type { Plate } from '@fayplate/plate';
import { Refusal } from '../answer.js';
import { savePictures } from '../files/pictures.js';
import type { Io } from '../io.js';
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
  readonly g20G21?: boolean;
  readonly step?: string;
  readonly picture?: string;
  readonly out?: string;
  readonly force?: boolean;
}

const pairOf = (names: readonly string[] | undefined): readonly [string, string] | null => {
  if (names === undefined) return null;
  const [a, b, more] = names;
  if (a === undefined || b === undefined || more !== undefined) throw new Refusal('--horizontal takes two places, such as --horizontal H1 H4');
  return [a, b];
};

const programsOf = (plate: Plate, made: MachinistTable, name: string, options: Options): readonly Program[] => {
  const programs = iso6983(plate, made, { name, dryRun: options.dryRun === true, usualUnitWords: options.g20G21 === true });
  if (!programs.ok) throw new Refusal(programs.faults.join('\n'));
  return programs.programs;
};

/** The content asked for in place of words. Programs of two sides never share a file: one is run, the plate turned over, then the other. */
const contentOf = (plate: Plate, made: MachinistTable, name: string, options: Options, io: Io): string | null => {
  if (options.csv === true) return tableCsv(made);
  if (options.cnc !== true) return null;
  const programs = programsOf(plate, made, name, options);
  const { out } = options;
  if (out === undefined || programs.length === 1) return programs.map((p) => p.text).join('\n');
  const dot = out.lastIndexOf('.') > out.lastIndexOf('/') ? out.lastIndexOf('.') : out.length;
  for (const { side, text } of programs) io.write(`${out.slice(0, dot)}-side-${side.toLowerCase()}${out.slice(dot)}`, text, options.force === true);
  return null;
};

const saveSolid = (plate: Plate, name: string, path: string, io: Io, force: boolean): void => {
  const solid = stepSolid(plate, { name });
  if (!solid.ok) throw new Refusal(`no solid can be made: ${solid.faults.join('; ')}`);
  io.write(path, solid.text, force);
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
    .option('--g20-g21', 'with --cnc: state the unit as most milling controls want it, in place of the standard’s G70 and G71')
    .option('--out <file>', 'with --csv or --cnc: write there instead of to standard output (programs of two sides: -side-a, -side-b)')
    .option('--step <file>', 'write the plate as a solid, ISO 10303-21')
    .option('--picture <file.svg>', 'draw the plate as it lies on the machine, one for each side that is cut')
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
          const { table: placed } = made;
          const force = options.force === true;
          if (options.step !== undefined) saveSolid(plate, job.name, options.step, io, force);
          if (options.picture !== undefined) {
            await savePictures(io, options.picture, (draw, letters) => placed.setups.map(({ side }) => ({ name: `side-${side}`, drawing: draw.settingPicture(plate, placed, side, letters) })), force);
          }
          const content = contentOf(plate, placed, job.name, options, io);
          return { code: plate.ok && placed.clear.every((c) => c.ok) ? 0 : 1, json: { ...tableJson(placed) }, report: tableReport(placed, speech), ...(content === null ? {} : { file: { content, out: options.out ?? null, force } }) };
        }),
      );
    });
};
