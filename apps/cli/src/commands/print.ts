import { type Report, type Speech, fileNameOf, say } from '@fayplate/core';
import type { Printed } from '@fayplate/print';
import { Refusal } from '../answer.js';
import { loadLettering } from '../files/fonts.js';
import { readProfile } from '../files/profiles.js';
import { type CommonOptions, oneOf, withCommonOptions } from '../options.js';
import { printSettings } from '../print-settings.js';
import { runJob } from '../run-job.js';
import type { AddCommand } from './command.js';

interface Options extends CommonOptions {
  readonly what: string;
  readonly side: string;
  readonly paper?: string;
  readonly printer?: string;
  readonly sheet?: string;
  readonly margin?: string;
  readonly overlap?: string;
  readonly turned?: string;
  readonly svg?: boolean;
  readonly out?: string;
  readonly force?: boolean;
}

const reportOf = (printed: Printed, file: string, speech: Speech): Report => {
  const { json } = printed;
  const tiles = json.pages.filter((p) => p.kind === 'tile').length;
  const off = json.still_off;
  return [
    {
      kind: 'verdict',
      ok: true,
      text: `${file}: ${json.pages.length} ${json.pages.length === 1 ? 'page' : 'pages'}, ${tiles} at true scale, on ${json.paper.name}.`,
    },
    {
      kind: 'list',
      items: [
        'Print at actual size (100 %), with no fitting to the page.',
        'Check the rulers on every sheet with a steel rule before you punch.',
        ...(off === null
          ? []
          : [
              `The farthest hole${off.hole === null ? '' : `, ${off.hole},`} can still be off by ${say(off.plus_minus, { ...speech, fraction: null }, speech.unit === 'in' ? 3 : 2)}.`,
            ]),
        ...printed.warnings,
      ],
    },
  ];
};

export const print: AddCommand = (program, io, done) => {
  withCommonOptions(program.command('print <job>'))
    .description('true-scale PDF: drilling template or gaskets, tiled over any paper')
    .addOption(oneOf('--what <what>', ['drill', 'gasket'], 'which template').default('drill'))
    .addOption(oneOf('--side <side>', ['A', 'B'], 'the side of the plate that faces you').default('B'))
    .option('--paper <paper>', 'A4, A3, Letter, …, `210 x 297 mm`, `roll 610 mm`, or `single` for one large sheet')
    .option('--printer <name>', 'correct for this printer’s measured scale (see `fayplate printer`)')
    .option('--margin <length>', 'bare edge that the printer cannot reach, such as 8 mm')
    .option('--overlap <length>', 'what neighbouring sheets share, such as 10 mm')
    .addOption(
      oneOf('--turned <way>', ['portrait', 'landscape', 'any'], 'how the sheets lie; any: for the fewest sheets'),
    )
    .option('--svg', 'one SVG at true scale instead, for a laser or a cutting plotter')
    .option('--sheet <row,column>', 'this sheet alone, such as 2,1')
    .option('--out <file.pdf>', 'where to write it')
    .option('--force', 'replace a file that Fayplate did not write')
    .addHelpText(
      'after',
      '\nExamples:\n  fayplate print pump.yaml --paper Letter\n  fayplate print pump.yaml --what gasket --out gasket.pdf\n  fayplate print pump.yaml --sheet 2,1',
    )
    .action(async (path: string, options: Options) => {
      done(
        await runJob('print', path, options, io, async ({ job, speech, warn, progress }) => {
          const [{ fittedWords, platedFaces, studyOf }, { doubtsOf }, { printTemplates, templateFor, templateSvg }] =
            await Promise.all([import('../study.js'), import('../doubts.js'), import('@fayplate/print')]);
          const study = studyOf(job, { setAside: options.setAside ?? [], warn, progress });
          const { plate, mated } = study.plate();
          const doubts = doubtsOf(study);
          const code = doubts.ok ? 0 : 1;
          const what = options.what;
          if (what !== 'drill' && what !== 'gasket') throw new Refusal('--what takes drill or gasket');
          const file = options.out ?? `${fileNameOf(job.name)}-${what}.${options.svg === true ? 'svg' : 'pdf'}`;
          const settings = printSettings(job, options, readProfile(io, options.printer ?? job.print?.printer ?? null));
          const input = { job, plate, mated, benches: study.benches() };
          const lettering = await loadLettering();
          if (options.svg === true) {
            const template = templateFor(input, { what, side: settings.side }, { speech });
            if ('ok' in template) throw new Refusal(template.faults.join('\n'));
            const drawn = templateSvg(job.name, template, { lettering });
            io.write([{ path: file, content: drawn.text }], options.force === true);
            return {
              code,
              json: { file, what, side: settings.side, warnings: drawn.warnings, suspects: doubts.suspects },
              report: [
                ...doubts.report,
                { kind: 'verdict', ok: true, text: `${file}: one drawing at true scale.` },
                ...drawn.warnings.map((text) => ({ kind: 'paragraph', text }) as const),
              ],
            };
          }
          const printed = await printTemplates(input, { ...settings, speech, lettering, file, what });
          if (!printed.ok) throw new Refusal(printed.faults.join('\n'));
          io.write([{ path: file, content: printed.bytes }], options.force === true);
          return {
            code,
            json: { ...printed.json, suspects: doubts.suspects },
            report: [...doubts.report, ...reportOf(printed, file, speech)],
            more: fittedWords(study, platedFaces(job), speech),
          };
        }),
      );
    });
};
