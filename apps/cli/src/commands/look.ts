import { Argument } from 'commander';
import { terminalText } from '../terminal/report.js';
import type { AddCommand } from './command.js';

interface Options {
  readonly json?: boolean;
}

/** Named for completions; the handbook itself says what it has, with the nearest name. */
const kinds = new Argument('<kind>');
kinds.argChoices = ['thread', 'drill', 'tap', 'clearance', 'hardware', 'dowel', 'fit', 'material', 'paper', 'face'];

export const look: AddCommand = (program, io, done) => {
  program
    .command('look')
    .addArgument(kinds)
    .argument('<what...>')
    .description('the handbook: thread, drill, tap drill, clearance, hardware, dowel, fit, material, paper, face')
    .option('--json', 'one JSON document on standard output and nothing else')
    .addHelpText(
      'after',
      '\nExamples:\n  fayplate look thread 3/8-16 UNC\n  fayplate look drill 10.3 mm\n  fayplate look clearance M10\n  fayplate look paper A3\n  fayplate look face FF165\n  fayplate look face 165 mm 4 holes',
    )
    .action(async (kind: string, what: readonly string[], options: Options) => {
      const { look: lookUp } = await import('@fayplate/handbook');
      // `tap drill` is one kind written as two words.
      const [first = '', ...rest] = what;
      const found =
        kind === 'tap' && first === 'drill' ? lookUp('tap drill', rest.join(' ')) : lookUp(kind, what.join(' '));
      if (!found.ok) {
        if (options.json === true)
          io.out(
            `${JSON.stringify({ fayplate: 1, job: null, command: 'look', error: found.why, nearest: found.nearest }, null, 2)}\n`,
          );
        io.err(`fayplate look: ${found.why}${found.nearest === null ? '' : `; did you mean ${found.nearest}?`}\n`);
        done(2);
        return;
      }
      if (options.json === true)
        io.out(`${JSON.stringify({ fayplate: 1, job: null, command: 'look', ...found.json }, null, 2)}\n`);
      else io.out(terminalText(found.report, io));
      done(0);
    });
};
