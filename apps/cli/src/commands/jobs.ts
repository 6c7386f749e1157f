import { type Command, Option } from 'commander';
import { type JobCommand, machineFormats } from '@fayplate/study';
import { type AddCommand, asCount, oneOf, withCommonOptions } from '../options.js';
import { runJob } from '../run-job.js';

// The commands that work on a job file: what each is called and takes. What it answers is `@fayplate/study`'s.

interface Said {
  readonly name: JobCommand;
  readonly description: string;
  /** What stands below its options. */
  readonly after: string;
  readonly options?: (command: Command) => Command;
}

const force = (command: Command): Command => command.option('--force', 'replace a file that Fayplate did not write');

const picture =
  (description: string) =>
  (command: Command): Command =>
    force(command.option('--picture <file.svg>', description));

/** Commands on a plate, which may be of two pieces. */
const onPlate = (command: Command): Command =>
  command.option('--piece <name>', 'of a plate of two pieces, this one alone (ring or plate, unless they have names)');

const trials = (command: Command): Command =>
  command.option('--trials <n>', 'trials for the odds that it goes on (default 5000)', asCount(100, 1_000_000));

const tableOptions = (command: Command): Command => {
  command
    .option('--origin <place>', 'what X 0 Y 0 is: a face, a feature, a hole, a corner of the blank, or `middle H1 H4`')
    .option('--horizontal <places...>', 'two places: the line from the first to the second runs along +X')
    .option('--one-sided', 'approach each hole from the sides that the job’s `backlash` states');
  for (const f of machineFormats.filter((f) => !f.beside)) command.option(`--${f.flag}`, f.help);
  command
    .option('--unsettled', 'make programs and the solid though readings are not settled; each begins with a stop')
    .option('--dry-run', 'with --cnc: the whole program 2 in above the work, spindle stopped')
    .option('--g70-g71', 'with --cnc: the unit words of ISO 6983, in place of G20 and G21, which most mills want')
    // The default now; scripts that say it go on.
    .addOption(new Option('--g20-g21').hideHelp())
    .option(
      '--out <file>',
      'with --csv or --cnc: write there instead of to standard output (each program its own file: -side-a, ' +
        '-side-b-bore-c1)',
    );
  for (const f of machineFormats.filter((f) => f.beside)) command.option(`--${f.flag} <file>`, f.help);
  return picture('draw the plate as it lies on the machine, one for each side that is cut')(command);
};

const printOptions = (command: Command): Command =>
  force(
    command
      .addOption(
        oneOf(
          '--what <what>',
          ['drill', 'gasket', 'part', 'depths', 'readings', 'assembly', 'exploded', 'drawing', 'buy', 'test-piece'],
          'a template, sheets to measure by, how it goes together, ' +
            'a drawing for another shop, or a thin piece to try on',
        ).default('drill'),
      )
      .addOption(oneOf('--side <side>', ['A', 'B'], 'the side of the plate that faces you').default('B'))
      .option('--paper <paper>', 'A4, A3, Letter, …, `210 x 297 mm`, `roll 610 mm`, or `single` for one large sheet')
      .option('--printer <name>', 'correct for this printer’s measured scale (see `fayplate printer`)')
      .option('--margin <length>', 'bare edge that the printer cannot reach, such as 8 mm')
      .option('--overlap <length>', 'what neighbouring sheets share, such as 10 mm')
      .addOption(
        oneOf('--turned <way>', ['portrait', 'landscape', 'any'], 'how the sheets lie; any: for the fewest sheets'),
      )
      .option('--svg', 'one SVG at true scale instead, for a laser or a cutting plotter')
      .option('--kerf <length>', 'of a test piece: the width of the laser’s burn, such as 0.2 mm (default: none)')
      .option('--thick <length>', 'of a test piece for a printer (default 3 mm)')
      .option('--sheet <row,column>', 'this sheet alone, such as 2,1')
      .option('--out <file.pdf>', 'where to write it'),
  );

const packetOptions = (command: Command): Command =>
  trials(
    command
      .requiredOption('--out <folder>', 'the folder to write into')
      .option('--full', 'print the appendix too: odds, rejected layouts, every check with its source')
      .option('--paper <paper>', 'for the templates: A4, Letter, …')
      .option('--printer <name>', 'correct the templates for this printer’s measured scale')
      .option('--unsettled', 'make programs and the solid though readings are not settled; each begins with a stop')
      .option('--g70-g71', 'programs with the unit words of ISO 6983, in place of G20 and G21, which most mills want'),
  ).option('--force', 'replace files that Fayplate did not write');

/** In the order of the work. */
const said: readonly Said[] = [
  {
    name: 'check',
    description: 'reads the file, lists every fault, and says what each face still needs',
    after: 'Examples:\n  fayplate check pump.yaml\n  cat pump.yaml | fayplate check -',
  },
  {
    name: 'locate',
    description: 'readings → centres with their ±; suspect readings; what to measure next',
    after: 'Examples:\n  fayplate locate pump.yaml\n  fayplate locate pump.yaml --set-aside pump:7 --picture pump.svg',
    options: picture('draw each face with its 95 % ellipses (one file a face)'),
  },
  {
    name: 'layout',
    description: 'centres → the layout that the maker most likely intended, with the odds',
    after: 'Example:\n  fayplate layout pump.yaml --picture layout.svg',
    options: picture('draw the measured centres with the intended ones (one file a face)'),
  },
  {
    name: 'buy',
    description: 'before buying: from a seller’s figures, can a plate exist, with what odds, what to ask for',
    after:
      'Example:\n  fayplate buy pump.yaml\n\nThe part that is not at hand has `seller: ± 1 mm` (or ± 1/16) on its ' +
      'face: each of its figures is good to that.',
    options: (command) => command.option('--trials <n>', 'trials (200 unless told)', asCount(50, 100_000)),
  },
  {
    name: 'stack',
    description: 'the axial chain: the window for the thickness, shims, worst case and statistical',
    after: 'Example:\n  fayplate stack pump.yaml',
    options: picture('draw the chain to scale'),
  },
  {
    name: 'plate',
    description: 'the plate: holes, treatments, outline, and every check with its value, limit and source',
    after: 'Examples:\n  fayplate plate pump.yaml\n  fayplate plate pump.yaml --trials 100000 --picture plate.svg',
    options: (command) => picture('draw the plate from both sides and in section')(trials(command)),
  },
  {
    name: 'table',
    description: 'the machinist’s table: drilling coordinates, tool order, check distances',
    after:
      'Examples:\n  fayplate table pump.yaml --origin "lower left corner" --units mm\n  fayplate table pump.yaml ' +
      '--csv --out pump.csv',
    options: tableOptions,
  },
  {
    name: 'print',
    description: 'true-scale PDF: drilling template or gaskets, tiled over any paper',
    after:
      'Examples:\n  fayplate print pump.yaml --paper Letter\n  fayplate print pump.yaml --what gasket --out ' +
      'gasket.pdf\n  fayplate print pump.yaml --sheet 2,1\n  fayplate ' +
      'print pump.yaml --what test-piece --kerf 0.2 --out try',
    options: printOptions,
  },
];

const saidLater: readonly Said[] = [
  {
    name: 'prove',
    description: 'readings of the drilled plate: does it go on, and with how much to spare',
    after:
      'Examples:\n  fayplate prove pump.yaml\n  fayplate prove pump.yaml --way 2 --out pump-rest\n\nWithout a ' +
      '`drilled:` section it says which readings to take. With `drilled: { so far: [H1, H2] }` it says how to\ngo ' +
      'on, and where a hole went wrong what can be done, best first; ' +
      '--out writes table, programs and template of the rest.',
    options: (command) =>
      force(
        command
          .option('--out <name>', 'write what is left to drill: NAME-table.csv, NAME-side-b.cnc, NAME-drill.pdf')
          .option('--way <n>', 'of the ways to go on that are listed, this one (default: the first)', asCount(1, 99)),
      ),
  },
  {
    name: 'trial',
    description: 'gaps of a trial assembly: the final shims at each bolt, and the tilt with its ±',
    after:
      'Example:\n  fayplate trial pump.yaml\n\nThe job has the gaps, by feeler or clay, at three places or more:\n ' +
      ' trial: { on: motor, gaps: { M1: 0.42, M2: 0.40, M3: 0.61 }, by: feeler, gasket: 0.3 ± 0.02 }',
  },
  {
    name: 'compare',
    description: 'two states of a job: what moved, which sheets are stale, is a drilled plate still good',
    after:
      'Example:\n  fayplate compare pump.yaml --with pump-before.yaml\n\nEvery sheet and file carries the ' +
      'fingerprint of its job, eight letters such as 7K2Q-F9M3: the same for the same meaning,\nwhatever the ' +
      'remarks. Exit status 1 where something that is printed or drilled no longer holds.',
    options: (command) => command.requiredOption('--with <earlier.yaml>', 'the job file as it was'),
  },
  {
    name: 'packet',
    description: 'all of it, as one packet: PDF, web page, templates, tables, files for the machine',
    after:
      'Examples:\n  fayplate packet pump.yaml --out pump-packet\n  fayplate packet pump.yaml --out pump-packet --full',
    options: packetOptions,
  },
];

/** Commands that answer on the plate. */
const pieced: ReadonlySet<JobCommand> = new Set(['plate', 'table', 'print', 'prove', 'packet']);

const adding =
  ({ name, description, after, options = (command) => command }: Said): AddCommand =>
  (program, io, done) => {
    const begun = withCommonOptions(program.command(`${name} <job>`));
    options(pieced.has(name) ? onPlate(begun) : begun)
      .description(description)
      .addHelpText('after', `\n${after}`)
      .action(async (path: string, given: object) => done(await runJob(name, path, given, io)));
  };

/** Up to the print, and from the drilled plate on: between them stands what is done at the printer. */
export const [beforeDrilling, afterDrilling] = [said.map(adding), saidLater.map(adding)] as const;
