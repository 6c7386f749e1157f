import { type Report, parseLength, shellWord } from '@fayplate/core';
import type { Measured } from '@fayplate/print';
import { Refusal, printerText } from '@fayplate/study';
import { WriteRefused } from '../files/write.js';
import { loadLettering } from '../files/fonts.js';
import { profilePath } from '../files/profiles.js';
import { told } from '../run-job.js';
import { terminalText } from '../terminal/report.js';
import type { AddCommand } from '../options.js';

interface Options {
  readonly wide?: string;
  readonly high?: string;
  readonly diagonals?: string;
  readonly plusMinus: string;
  readonly paper: string;
  readonly sheet?: string;
  readonly json?: boolean;
  readonly force?: boolean;
}

const lengthOf = (text: string, what: string): number => {
  const read = parseLength(text, 1);
  if (!read.ok || !(read.value > 0))
    throw new Refusal(`${what} takes a length in mm above zero${read.ok ? '' : `: ${read.expected}`}`);
  return read.value;
};

/** `149.4/150`: measured over nominal. */
const measuredOf = (text: string | undefined, what: string): Measured => {
  const [measured, nominal, more] = (text ?? '').split('/');
  if (measured === undefined || nominal === undefined || more !== undefined)
    throw new Refusal(`${what} takes what the ruler measures over what it should be, such as 149.4/150`);
  const read = { measured: lengthOf(measured, what), nominal: lengthOf(nominal, what) };
  // The sheet's rulers are whole millimetres long; the wrong way round would double the error.
  if (Number.isInteger(read.measured) && !Number.isInteger(read.nominal))
    throw new Refusal(
      `${what} takes the measured length first: ${nominal.trim()}/${measured.trim()}, if the ruler says ` +
        `${measured.trim()} mm`,
    );
  return read;
};

/** `rising/falling@width x height`, such as 318.2/318.6@180x260. */
const diagonalsOf = (text: string | undefined) => {
  if (text === undefined) return null;
  const [, rising, falling, width, height] = /^([\d.]+)\/([\d.]+)@([\d.]+) ?x ?([\d.]+)$/.exec(text.trim()) ?? [];
  if (rising === undefined || falling === undefined || width === undefined || height === undefined)
    throw new Refusal(
      '--diagonals takes rising/falling@width x height as the calibration sheet says them, such as 318.2/318.6@180x260',
    );
  return {
    rising: lengthOf(rising, '--diagonals'),
    falling: lengthOf(falling, '--diagonals'),
    width: lengthOf(width, '--diagonals'),
    height: lengthOf(height, '--diagonals'),
  };
};

export const printer: AddCommand = (program, io, done) => {
  program
    .command('printer <name>')
    .description('saves a printer’s measured scale for later prints, or prints the sheet to measure')
    .option('--sheet <file.pdf>', 'write the calibration sheet, to print and measure')
    .option('--wide <measured/nominal>', 'the ruler across the sheet, mm, such as 149.4/150')
    .option('--high <measured/nominal>', 'the ruler up the sheet, mm, such as 199.1/200')
    .option('--diagonals <r/f@wxh>', 'both diagonals of its rectangle, mm, such as 318.2/318.6@180x260')
    .option('--plus-minus <length>', '± of one measured length', '0.3 mm')
    .option('--paper <paper>', 'the paper', 'A4')
    .option('--json', 'one JSON document on standard output and nothing else')
    .option('--force', 'replace a file that Fayplate did not write')
    .addHelpText(
      'after',
      '\nExamples:\n  fayplate printer workshop --sheet calibration.pdf\n  fayplate printer workshop --wide ' +
        '149.4/150 --high 199.1/200 --diagonals 318.2/318.6@180x260',
    )
    .action(async (name: string, options: Options) => {
      const say = (json: object, report: Report): void =>
        (options.sheet === '-' ? io.err : io.out)(
          options.json === true
            ? `${JSON.stringify({ fayplate: 1, job: null, command: 'printer', ...json }, null, 2)}\n`
            : terminalText(report, io),
        );
      try {
        if (!/[\p{L}\p{N}]/u.test(name)) throw new Refusal('give the printer a name, such as workshop');
        const { printCalibration, printerProfile } = await import('@fayplate/print');
        if (options.sheet !== undefined) {
          const printed = await printCalibration(name, {
            paper: options.paper,
            margin: 8,
            orientation: 'portrait',
            date: null,
            lettering: await loadLettering(),
            file: options.sheet,
          });
          if (!printed.ok) throw new Refusal(printed.faults.join('\n'));
          io.write([{ path: options.sheet, content: printed.bytes }], options.force === true);
          say({ ...printed.json }, [
            {
              kind: 'verdict',
              ok: true,
              text:
                `${options.sheet}: print it at actual size, measure its rulers and diagonals, and give what you read ` +
                `to fayplate printer ${shellWord(name)}.`,
            },
          ]);
          done(0);
          return;
        }
        const read = printerProfile({
          name,
          wide: measuredOf(options.wide, '--wide'),
          high: measuredOf(options.high, '--high'),
          diagonals: diagonalsOf(options.diagonals),
          plusMinus: lengthOf(options.plusMinus, '--plus-minus'),
          date: io.today(),
          paper: options.paper,
        });
        if (!read.ok) throw new Refusal(read.faults.join('\n'));
        const path = profilePath(io, name);
        io.write([{ path, content: printerText(read.profile) }], options.force === true);
        const percent = (v: number): string => `${v >= 1 ? '+' : '−'}${Math.abs(100 * (v - 1)).toFixed(2)} %`;
        say({ file: path, profile: read.profile }, [
          {
            kind: 'paragraph',
            text:
              `Saved: ${name} prints ${percent(read.profile.wide)} across and ${percent(read.profile.high)} up. ` +
              `Prints with --printer ${shellWord(name)} are corrected for it.`,
          },
        ]);
        done(0);
      } catch (error) {
        if (!(error instanceof Refusal || error instanceof WriteRefused)) throw error;
        if (options.json === true)
          io.out(`${JSON.stringify({ fayplate: 1, job: null, command: 'printer', error: error.message }, null, 2)}\n`);
        io.err(`fayplate printer: ${told(error.message)}\n`);
        done(2);
      }
    });
};
