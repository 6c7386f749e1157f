import { savePictures } from '../files/pictures.js';
import { type CommonOptions, need, withCommonOptions } from '../options.js';
import { runJob } from '../run-job.js';
import type { AddCommand } from './command.js';

interface Options extends CommonOptions {
  readonly picture?: string;
  readonly force?: boolean;
}

export const stack: AddCommand = (program, io, done) => {
  withCommonOptions(program.command('stack <job>'))
    .description('the axial chain: the window for the thickness, shims, worst case and statistical')
    .option('--picture <file.svg>', 'draw the chain to scale')
    .option('--force', 'replace a file that Fayplate did not write')
    .addHelpText('after', '\nExample:\n  fayplate stack pump.yaml')
    .action(async (path: string, options: Options) => {
      done(
        await runJob('stack', path, options, io, async ({ job, speech }) => {
          const spec = need(
            job.stack,
            'this job has no `stack:` section; add the links along the shaft, each with its ±, and the limits that they must meet',
          );
          const { solveStack, stackJson, stackReport } = await import('@fayplate/plate');
          const result = solveStack(spec);
          if (options.picture !== undefined) {
            await savePictures(
              io,
              options.picture,
              (draw, letters) => [{ name: 'stack', drawing: draw.chainPicture(spec, result, speech, letters) }],
              options.force === true,
            );
          }
          return { code: result.ok ? 0 : 1, json: stackJson(result), report: stackReport(result, speech) };
        }),
      );
    });
};
