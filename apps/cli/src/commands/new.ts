import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { parseLengthBand } from '@fayplate/core';
import { Refusal } from '../answer.js';
import { WriteRefused } from '../files/write.js';
import { collect, unitsOption } from '../options.js';
import type { PartAnswers, StarterAnswers } from '../starter/answers.js';
import type { AddCommand } from './command.js';

interface Options {
  readonly job?: string;
  readonly units?: 'in' | 'mm';
  readonly caliper?: string;
  readonly part?: readonly string[];
  readonly force?: boolean;
}

/** The schema lies beside the bundle; editors that read this comment then know the keys. */
const editorLines = (): readonly string[] => {
  const schema = join(import.meta.dirname, 'job.schema.json');
  return existsSync(schema) ? [`# yaml-language-server: $schema=${schema}`] : [];
};

const fromFlags = async (options: Options): Promise<StarterAnswers> => {
  const [{ describePart }, { usualCaliper }] = await Promise.all([import('../starter/describe.js'), import('../starter/answers.js')]);
  const parts: readonly PartAnswers[] = (options.part ?? []).map(describePart);
  const [first, second, more] = parts;
  if (first === undefined || second === undefined || more !== undefined) throw new Refusal('give --part twice, once for each part, such as --part "pump, spigot, studs, 12 2 4 6"');
  if (first.name === second.name) throw new Refusal('the two parts need two names');
  const units = options.units ?? 'in';
  const caliper = options.caliper ?? usualCaliper(units);
  const band = parseLengthBand(caliper, units);
  if (!band.ok) throw new Refusal(`--caliper takes a ±: ${band.expected}`);
  return { job: options.job ?? 'Adapter plate', units, caliper, parts: [first, second] };
};

export const newJob: AddCommand = (program, io, done) => {
  program
    .command('new <file>')
    .description('writes a commented starter job, with the readings to take in the order that fixes the shape soonest')
    .option('--job <name>', 'what the job is called')
    .addOption(unitsOption('what a bare number means'))
    .option('--caliper <±>', 'how good one caliper reading is, such as "± 0.002 in"')
    .option('--part <words>', 'name, spigot|bore|none, studs|holes, clocks; give it twice', collect)
    .option('--force', 'replace a file that Fayplate did not write')
    .addHelpText('after', '\nExamples:\n  fayplate new pump.yaml\n  fayplate new pump.yaml --part "pump, spigot, studs, 12 2 3 5 7" --part "motor, spigot, holes, 1:30 4:30 7:30 10:30"\n\nOn a terminal and without --part it asks.')
    .action(async (file: string, options: Options) => {
      try {
        const answers = options.part === undefined && io.interactive ? await (await import('../starter/ask.js')).askForStarter(io.err) : await fromFlags(options);
        const { starterJob } = await import('../starter/write.js');
        io.write(file, starterJob(answers, ['# A Fayplate job.', ...editorLines()]), options.force === true);
        io.out(`${file} is written. Take the readings in the order of its lines, then: fayplate check ${file}\n`);
        done(0);
      } catch (error) {
        if (!(error instanceof Refusal || error instanceof WriteRefused)) throw error;
        io.err(`fayplate new: ${error.message}\n`);
        done(2);
      }
    });
};
