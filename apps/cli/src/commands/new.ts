import { inert, shellPath } from '@fayplate/core';
import { type PartAnswers, Refusal, type StarterAnswers } from '@fayplate/study';
import { WriteRefused } from '../files/write.js';
import { type AddCommand, collect, unitsOption } from '../options.js';
import { told } from '../run-job.js';

interface Options {
  readonly job?: string;
  readonly units?: 'in' | 'mm';
  readonly caliper?: string;
  readonly instrument?: readonly string[];
  readonly part?: readonly string[];
  readonly force?: boolean;
  readonly full?: boolean;
}

const fromFlags = async (options: Options): Promise<StarterAnswers> => {
  const { caliperOf, describePart, instrumentOf, jobNameOf, refuseSameName, usualCaliper } =
    await import('@fayplate/study');
  const parts: readonly PartAnswers[] = (options.part ?? []).map(describePart);
  const [first, second, more] = parts;
  if (first === undefined || second === undefined || more !== undefined)
    throw new Refusal('give --part twice, once for each part, such as --part "pump, spigot, studs, 12 2 4 6"');
  refuseSameName(first.name, second.name);
  const units = options.units ?? 'in';
  return {
    job: jobNameOf(options.job ?? 'Adapter plate'),
    units,
    caliper: caliperOf(options.caliper ?? usualCaliper(units), units),
    instruments: (options.instrument ?? []).map(instrumentOf),
    parts: [first, second],
  };
};

export const newJob: AddCommand = (program, io, done) => {
  program
    .command('new <file>')
    .description('writes a commented starter job, with the readings to take in the order that fixes the shape soonest')
    .option('--job <name>', 'what the job is called')
    .addOption(unitsOption('what a bare number means'))
    .option('--caliper <±>', 'how good one caliper reading is, such as "± 0.002 in"')
    .option(
      '--instrument <words>',
      'another one at hand and its ±, such as "rule ± 1/64 in"; as often as wanted',
      collect,
    )
    .option(
      '--part <words>',
      'name, spigot|bore|none, studs|holes and their thread or alike, clocks; from behind, across two clocks; give it twice',
      collect,
    )
    .option('--full', 'with every word of the job file below it, commented')
    .option('--force', 'replace a file that Fayplate did not write')
    .addHelpText(
      'after',
      '\nExamples:\n  fayplate new pump.yaml\n  fayplate new pump.yaml --part "pump, spigot, studs, 12 2 3 5 7" ' +
        '--part "motor, spigot, holes, 1:30 4:30 7:30 10:30"\n  fayplate new mill.yaml --units mm --instrument "rule ' +
        '± 0.5" --part "mill, none, holes M10, 10:30 1:30 4:30 7:30, from behind, across 10:30 1:30" --part "motor, ' +
        'spigot, studs M8, 12 4 8"\n\nOn a terminal and without --part it asks; back takes an answer back.',
    )
    .action(async (file: string, options: Options) => {
      try {
        const answers =
          options.part === undefined && io.interactive
            ? await (await import('./ask-starter.js')).askForStarter(io)
            : await fromFlags(options);
        const { starterJob, wordLines } = await import('@fayplate/study');
        const starter = starterJob(answers);
        io.write(
          [{ path: file, content: options.full === true ? `${starter}\n${wordLines().join('\n')}\n` : starter }],
          options.force === true,
        );
        if (file !== '-')
          io.out(
            `Saved: ${inert(file)}. Take the readings in the order of its lines, then: fayplate check ` +
              `${inert(shellPath(file))}\n`,
          );
        done(0);
      } catch (error) {
        if (!(error instanceof Refusal || error instanceof WriteRefused)) throw error;
        io.err(`fayplate new: ${told(error.message)}\n`);
        done(2);
      }
    });
};
