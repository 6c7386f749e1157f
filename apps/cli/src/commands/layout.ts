import { savePictures } from '../files/pictures.js';
import { type CommonOptions, withCommonOptions } from '../options.js';
import { runJob } from '../run-job.js';
import type { AddCommand } from './command.js';

interface Options extends CommonOptions {
  readonly picture?: string;
  readonly force?: boolean;
}

export const layout: AddCommand = (program, io, done) => {
  withCommonOptions(program.command('layout <job>'))
    .description('centres → the layout that the maker most likely intended, with the odds')
    .option('--picture <file.svg>', 'draw the measured centres with the intended ones (one file a face)')
    .option('--force', 'replace a file that Fayplate did not write')
    .addHelpText('after', '\nExample:\n  fayplate layout pump.yaml --picture layout.svg')
    .action(async (path: string, options: Options) => {
      done(
        await runJob('layout', path, options, io, async ({ job, speech, warn, progress }) => {
          const [{ fittedWords, studyOf }, { layoutJson, layoutReport }] = await Promise.all([
            import('../study.js'),
            import('@fayplate/layout'),
          ]);
          const study = studyOf(job, { setAside: options.setAside ?? [], warn, progress });
          const faces = job.faces.map((face) => ({ face, located: study.located(face), layout: study.layout(face) }));
          if (options.picture !== undefined) {
            await savePictures(
              io,
              options.picture,
              (draw, letters) =>
                faces.map((f) => ({
                  name: f.face.name,
                  drawing: draw.layoutPicture(f.face, f.located, f.layout, speech, letters),
                })),
              options.force === true,
            );
          }
          return {
            code: faces.every((f) => f.layout.chosen !== null) ? 0 : 1,
            json: layoutJson(faces.map((f) => f.layout)),
            report: faces.flatMap((f) => layoutReport(f.face, f.located, f.layout, speech)),
            more: fittedWords(study, job.faces, speech),
          };
        }),
      );
    });
};
