import { savePictures } from '../files/pictures.js';
import { type CommonOptions, withCommonOptions } from '../options.js';
import { runJob } from '../run-job.js';
import type { AddCommand } from './command.js';

interface Options extends CommonOptions {
  readonly picture?: string;
  readonly force?: boolean;
}

export const locate: AddCommand = (program, io, done) => {
  withCommonOptions(program.command('locate <job>'))
    .description('readings → centres with their ±; suspect readings; what to measure next')
    .option('--picture <file.svg>', 'draw each face with its 95 % ellipses (one file a face)')
    .option('--force', 'replace a file that Fayplate did not write')
    .addHelpText(
      'after',
      '\nExamples:\n  fayplate locate pump.yaml\n  fayplate locate pump.yaml --set-aside pump:7 --picture pump.svg',
    )
    .action(async (path: string, options: Options) => {
      done(
        await runJob('locate', path, options, io, async ({ job, speech, warn, progress }) => {
          const [{ locatedIn }, { fittedReport, isSound, locateJson, locateReport }] = await Promise.all([
            import('../located.js'),
            import('@fayplate/survey'),
          ]);
          const faces = job.faces.map((face) => ({
            face,
            located: locatedIn(job, face, { setAside: options.setAside ?? [], next: true, warn, progress }),
          }));
          if (options.picture !== undefined) {
            await savePictures(
              io,
              options.picture,
              (draw, letters) =>
                faces.map(({ face, located }) => ({
                  name: face.name,
                  drawing: draw.facePicture(face, located, speech, letters),
                })),
              options.force === true,
            );
          }
          const sound = faces.every(({ located }) => isSound(located));
          return {
            code: sound ? 0 : 1,
            json: locateJson(faces.map((f) => f.located)),
            report: faces.flatMap(({ face, located }) => locateReport(face, located, speech)),
            more: () => faces.flatMap(({ face, located }) => fittedReport(face, located, speech)),
          };
        }),
      );
    });
};
