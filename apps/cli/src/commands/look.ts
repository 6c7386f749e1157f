import { Argument } from 'commander';
import { terminalText } from '../terminal/report.js';
import type { Io } from '../io.js';
import type { AddCommand } from '../options.js';

interface Options {
  readonly json?: boolean;
  readonly picture?: string;
  readonly force?: boolean;
}

/** Named for completions; the handbook itself says what it has, with the nearest name. */
const kinds = new Argument('<kind>');
kinds.argChoices = [
  'thread',
  'drill',
  'tap',
  'clearance',
  'hardware',
  'dowel',
  'fit',
  'material',
  'paper',
  'face',
  'words',
];

const fromHandbook = async (kind: string, first: string, rest: readonly string[]) => {
  const { look: lookUp } = await import('@fayplate/handbook');
  return kind === 'tap' && first === 'drill'
    ? lookUp('tap drill', rest.join(' '))
    : lookUp(kind, [first, ...rest].join(' '));
};

/** Draws what was looked up into a file; answers why not where it cannot be drawn. */
const drawn = async (io: Io, kind: string, what: string, options: Options): Promise<string | null> => {
  const [{ standardFaceSvg }, { loadLettering }, { WriteRefused }] = await Promise.all([
    import('@fayplate/study'),
    import('../files/fonts.js'),
    import('../files/write.js'),
  ]);
  const content = kind === 'face' ? await standardFaceSvg(what, await loadLettering()) : null;
  if (content === null) return '--picture draws one standard face, such as look face FF165 --picture ff165.svg';
  try {
    io.write([{ path: options.picture ?? '-', content }], options.force === true);
    return null;
  } catch (error) {
    if (error instanceof WriteRefused) return error.message;
    throw error;
  }
};

export const look: AddCommand = (program, io, done) => {
  program
    .command('look')
    .addArgument(kinds)
    .argument('[what...]')
    .description(
      'the handbook: thread, drill, tap drill, clearance, hardware, ' +
        'dowel, fit, material, paper, face; words of the job file',
    )
    .option('--json', 'one JSON document on standard output and nothing else')
    .option('--picture <file.svg>', 'a standard face drawn at true scale, beside the answer')
    .option('--force', 'replace a file of that name whoever wrote it')
    .addHelpText(
      'after',
      '\nExamples:\n  fayplate look thread 3/8-16 UNC\n  fayplate look drill 10.3 mm\n  fayplate look clearance ' +
        'M10\n  fayplate look paper A3\n  fayplate look face FF165\n  fayplate look face 165 mm 4 holes\n  fayplate ' +
        'look face FF165 --picture ff165.svg\n  fayplate look ' +
        'thread 9.4 mm 1.6 mm\n  fayplate look words plate.fasten',
    )
    .action(async (kind: string, what: readonly string[], options: Options) => {
      // `tap drill` is one kind written as two words.
      const [first = '', ...rest] = what;
      const found = /^words?$/i.test(kind)
        ? { kind: 'words', ...(await import('@fayplate/study')).lookWords(what.join(' ')) }
        : await fromHandbook(kind, first, rest);
      if (!found.ok) {
        if (options.json === true)
          io.out(
            `${JSON.stringify({ fayplate: 1, job: null, command: 'look', error: found.why, nearest: found.nearest }, null, 2)}\n`,
          );
        io.err(`fayplate look: ${found.why}${found.nearest === null ? '' : `; did you mean ${found.nearest}?`}\n`);
        done(2);
        return;
      }
      if (options.picture !== undefined) {
        const why = await drawn(io, found.kind, rest.length === 0 ? first : what.join(' '), options);
        if (why !== null) {
          io.err(`fayplate look: ${why}\n`);
          done(2);
          return;
        }
      }
      if (options.json === true)
        io.out(`${JSON.stringify({ fayplate: 1, job: null, command: 'look', ...found.json }, null, 2)}\n`);
      else io.out(terminalText(found.report, io));
      done(0);
    });
};
