import { terminalText } from '../terminal/report.js';
import { type Speech, speechFor } from '@fayplate/core';
import { asFraction, asUnits } from '../options.js';
import type { AddCommand } from './command.js';

interface Options {
  readonly json?: boolean;
  readonly units?: Speech['unit'];
  readonly fractions?: number;
}

export const look: AddCommand = (program, io, done) => {
  program
    .command('look <kind> <what...>')
    .description('the handbook: thread, drill, clearance, tap drill, paper, material, fit')
    .option('--json', 'one JSON document on standard output and nothing else')
    .option('--units <unit>', 'say lengths in `in` or `mm`', asUnits)
    .option('--fractions <n>', 'say inches in fractions, to the nearest 1/n', asFraction)
    .addHelpText('after', '\nExamples:\n  fayplate look thread 3/8-16 UNC\n  fayplate look drill 10.3 mm\n  fayplate look clearance M10\n  fayplate look paper A3')
    .action(async (kind: string, what: readonly string[], options: Options) => {
      const { look: lookUp } = await import('@fayplate/handbook');
      const found = lookUp(kind, what.join(' '), speechFor(options.units ?? 'mm', options.fractions ?? null));
      if (!found.ok) {
        if (options.json === true) io.out(`${JSON.stringify({ fayplate: 1, job: null, command: 'look', error: found.expected, nearest: found.nearest }, null, 2)}\n`);
        io.err(`fayplate look: ${found.expected}${found.nearest === null ? '' : `; did you mean ${found.nearest}?`}\n`);
        done(2);
        return;
      }
      if (options.json === true) io.out(`${JSON.stringify({ fayplate: 1, job: null, command: 'look', ...found.json }, null, 2)}\n`);
      else io.out(terminalText(found.report, io));
      done(0);
    });
};
